"""A torque wrench with an adapter on it, straight, square and folded back."""

from fastkit.deck import profiles
from fastkit.deck.drawings import filled, label, line, outlined, svg


def adapters() -> str:
    """Three wrenches one below the other; not to scale."""
    body = "".join(
        _wrench(y, way, word)
        for y, way, word in (
            (5.0, (8.0, 0.0), "x less"),
            (16.0, (0.0, -5.5), "x 1"),
            (24.0, (-8.0, 3.0), "x more"),
        )
    )
    return svg(52, 29, "Adapter straight out, square to the wrench, folded back", body)


def _wrench(y: float, way: tuple[float, float], word: str) -> str:
    """A handle from the left to its square at 30 mm, an adapter from there on."""
    square, end = (30.0, y), (30.0 + way[0], y + way[1])
    body = line([(12.0, y), square], 1.6) + line([square, end], 1.0)
    body += outlined(profiles.rectangle(9, 3.2, (7.5, y)), 0.35, "#fff")
    body += outlined(profiles.circle(3.4, square), 0.35, "#fff")
    body += filled(profiles.rectangle(1.3, 1.3, square))
    body += outlined(profiles.regular(6, 3.2, end, 30), 0.4, "#fff")
    return body + label(40.5, y + 1.2, word, 3.2, "start", bold=True)
