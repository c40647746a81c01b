"""A ground joint cut open: what lies on what, from the body outward."""

from fastkit.deck import profiles
from fastkit.deck.drawings import label, line, outlined, svg

MIDDLE_MM = 13.6


def ground_stack() -> str:
    """Stud, body, lug, toothed washer and nut; not to scale."""
    x = MIDDLE_MM
    body = outlined(profiles.rectangle(3.6, 21, (x, 11)), 0.3, "#fff")
    for k in range(11):
        body += line([(x - 1.8, 1.6 + 1.8 * k), (x + 1.8, 2.5 + 1.8 * k)], 0.2)
    body += _part("nut", 5.6, outlined(profiles.rectangle(10, 5, (x, 5.6)), 0.35, "#fff"))
    for edge in (-2.4, 2.4):
        body += line([(x + edge, 3.1), (x + edge, 8.1)], 0.2)
    teeth = [(x - 6 + 1.0 * k, 8.6 if k % 2 else 9.8) for k in range(13)]
    body += _part("toothed washer", 9.2, line(teeth, 0.5))
    lug = profiles.rectangle(12, 1.8, (x, 11.4))
    cable = line([(x - 5.8, 11.4), (x - 9, 11.4), (x - 12, 7.4), (x - 13.6, 7.4)], 1.8)
    body += _part("lug", 11.4, outlined(lug, 0.3, "#ddd") + cable)
    sheet = outlined(profiles.rectangle(26, 3, (x, 14.6)), 0.3, "#fff")
    for k in range(16):
        at = x - 12.6 + 1.6 * k
        if abs(at - x + 0.4) > 2.6:
            sheet += line([(at, 16), (at + 1.2, 13.2)], 0.2)
    paint = "".join(line([(x + way * 7, 12.8), (x + way * 13, 12.8)], 0.9) for way in (-1, 1))
    body += _part("body", 14.6, sheet + paint)
    body += line([(x + 10, 12.6), (x + 12.6, 19.6), (28.8, 19.6)], 0.2)
    return svg(54.8, 22, "Ground joint: body, lug, toothed washer, nut", body + _words())


def _words() -> str:
    """The parts' names at the right, in their order, each with its leader."""
    words = (
        ("nut", 5.6, 3.4, 5.0),
        ("toothed washer", 9.2, 7.8, 6.0),
        ("lug", 11.4, 12.2, 6.0),
        ("body, bare", 14.6, 16.4, 13.0),
    )
    out = label(29.4, 20.5, "paint off under the lug", 2.3, "start")
    for word, y, at, edge in words:
        out += line([(MIDDLE_MM + edge, y), (27.4, at), (28.8, at)], 0.2)
        out += label(29.4, at + 0.9, word, 2.9, "start", bold=True)
    return out


def _part(name: str, y: float, drawn: str) -> str:
    """A part and how far down its middle lies."""
    return f'<g data-part="{name}" data-y="{profiles.number(y)}">{drawn}</g>'
