"""The fields that words fill, and which of them only vague words did."""

from collections.abc import Mapping

from fastkit.extraction.reading import DAMAGE_ORDER, SEIZED_ORDER, Field, Taken

RANKED: Mapping[str, tuple[str, ...]] = {
    "damage": DAMAGE_ORDER,
    "seized": SEIZED_ORDER,
    "residue": ("none", "flammable", "chlorinated"),
    "load": ("unknown", "none", "weight", "spring", "pressure"),
    "support": ("unknown", "bench", "stands", "jack"),
}


class Filled:
    """What has been read so far."""

    def __init__(self) -> None:
        self.given: dict[str, Field] = {}
        self.taken: list[Taken] = []

    def put(self, field: str, value: Field, vague: bool, words: str) -> None:
        """Fill a field once; plain words win over vague ones."""
        known = next((taken for taken in self.taken if taken.what == field), None)
        if field in self.given:
            # plain over vague; of two vague ones the tighter
            tighter = isinstance(value, float | tuple) and value < self.given[field]  # type: ignore[operator]
            if known is None or (vague and not tighter):
                return
        if known:
            self.taken.remove(known)
        self.given[field] = value
        if vague:
            self.taken.append(Taken(field, value, words))

    def rank(self, field: str, value: str, vague: bool, words: str) -> None:
        """Fill a field by the worst of the values said; a load plainly off is not brought back."""
        order = RANKED[field]
        have = self.given.get(field)
        was_vague = any(taken.what == field for taken in self.taken)
        if field == "load" and have is not None and vague != was_vague and "none" in (have, value):
            if vague:
                return
            self.forget(field)
            have = None
        worse = have is None or order.index(value) > order.index(str(have))
        if str(have).startswith("snapped") and value.startswith("snapped") and vague != was_vague:
            worse = was_vague  # "sheared, 5 mm still proud": where it broke is said
        if worse:
            self.taken[:] = [taken for taken in self.taken if taken.what != field]
            self.given[field] = value
            if vague:
                self.taken.append(Taken(field, value, words))

    def forget(self, field: str) -> None:
        """Take back what only vague words said of a field."""
        if any(taken.what == field for taken in self.taken):
            self.taken[:] = [taken for taken in self.taken if taken.what != field]
            del self.given[field]

    def add(self, field: str, value: str, vague: bool, words: str) -> None:
        """Add a value to a field that holds several."""
        have = self.given.get(field, ())
        if isinstance(have, tuple) and value not in have:
            self.given[field] = (*have, value)
            if vague:
                self.taken.append(Taken(field, value, words))
