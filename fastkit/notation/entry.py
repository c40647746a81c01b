"""Entry ids: a kind and a key with a colon between, as `thread:M8x1.25`."""

KINDS = (
    *("thread", "drive", "grade", "torque", "method", "head", "friction", "material", "hazard"),
    *("neighbour", "seizure", "tool", "system", "source", "tube", "insert", "pair", "finish"),
    *("measured", "metal", "environment", "potential", "nut-factor", "torque-factor", "tightening"),
    *("structural", "embedding", "wrench-class", "prevailing", "nut-torque", "slip", "engagement"),
    *("compound", "ground", "broken", "extractor", "left-hand"),
    *("washer", "hardware", "screw-end"),
)


def entry_id(kind: str, key: str) -> str:
    """Id of the entry of a kind under its key in that kind's table."""
    return f"{kind}:{key}"


def split_id(text: str) -> tuple[str, str] | None:
    """
    Kind and key of an id; None where *text* is not one.

    >>> split_id("thread:M8x1.25")
    ('thread', 'M8x1.25')
    >>> split_id("what: ever")
    """
    kind, colon, key = text.strip().partition(":")
    kind = kind.lower()
    return (kind, key) if colon and kind in KINDS and key and " " not in key else None
