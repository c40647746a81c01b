"""
What heat and cold do to this very bond: how hot it gets here, and what that leaves.

bond_effects.csv says what a source leaves of a bond at its full temperature, a steel screw in
aluminium for a warmed body. What is reached here, and how far screw and body grow apart, is
computed; the effect is taken to that share, by the logarithm of the bond that is left.
"""

from math import pi

from fastkit.extraction.facts import Facts
from fastkit.extraction.resistance import Body
from fastkit.extraction.situation import HEADLESS, Situation
from fastkit.joint.warming import ROOM_C, Heated, Lump, Stuff, heated, lump, relief
from fastkit.records.material import Material
from fastkit.records.method import BondEffect, HeatSource

# Workshop judgement, common practice with no published source.
SOFT_C = 250.0  # threadlocker lets go, paint is soft; a light body stands no more, nor a neighbour
LIGHT = (
    "aluminium",
    "magnesium",
    "plastic",
    "wood",
    "glass",
    "ceramic",
    "carbon",
)  # bodies that give way below a red glow
SOFTENED = ("threadlocked-low", "threadlocked-medium", "threadlocked-high", "painted")
MOST_GROWTH = 2.0  # growing apart further than twice the reference cracks no more of the crust
HEXAGONS = ("hexagon", "nut", "flange")
STEEL, STAINLESS, REFERENCE = "steel", "stainless-304", "aluminium"
HEAT, WELD = "heat", "weld-nut"


class Warmth:
    """Each source of heat or cold on one fastener: how hot, how long, what is left of the bond."""

    def __init__(self, situation: Situation, facts: Facts, size: Body) -> None:
        self.situation, self.facts, self.size = situation, facts, size
        self.sources = {row.method: row for row in facts.heat_sources}
        self._stuffs = {row.id: row for row in facts.materials}
        self._flows = {row.material: row.conductivity_w_mk for row in facts.conductivities}
        self._lump = self._piece()
        shielded = {row.neighbour: row.shield_mm for row in facts.clearances if row.hazard == HEAT}
        beside = any(near.mm < shielded.get(near.thing, 0.0) for near in situation.near)
        self.light = situation.into in LIGHT
        self.gentle = self.light or beside
        self.got = {method: self._heated(row) for method, row in self.sources.items()}
        self.effects = {
            row.method: self._here(row)
            for row in facts.bond_effects
            if row.seizure == situation.seized
        }

    def minutes(self, method: str) -> float:
        """Return the minutes for which the heat itself must last, besides the method's own."""
        got = self.got.get(method)
        return got.seconds / 60 if got else 0.0

    def grows(self, method: str) -> tuple[Stuff, Stuff] | None:
        """Return body and screw as a source warms or chills them; None where not known."""
        source, body = self.sources[method], self._stuffs[self.situation.into]
        host = self._stuff(body, self._rise(method) if source.warms != "screw" else 0.0)
        stainless = self.situation.coating == "stainless"
        growth = {row.stuff: row.expansion_per_k for row in self.facts.expansions}
        steel = self._stuff(self._stuffs[STEEL], self._rise(method))
        if host is None or steel is None:
            return None
        return host, steel._replace(expansion_per_k=growth[STAINLESS]) if stainless else steel

    def _rise(self, method: str) -> float:
        return self.got[method].celsius - ROOM_C

    @staticmethod
    def _stuff(row: Material, rise: float) -> Stuff | None:
        if row.expansion_per_k is None or row.modulus_mpa is None:
            return None
        return Stuff(row.expansion_per_k, rise, row.modulus_mpa)

    def _piece(self) -> Lump:
        head, size = self.facts.head, self.size
        if self.situation.damage in HEADLESS or head is None or not head.head_height_mm:
            return lump(size.d, size.engaged, 0.0, 0.0, size.d)
        drive = self.facts.drive
        flats = drive.across_flats_mm if drive and head.form in HEXAGONS else None
        area = 0.866 * flats**2 if flats else pi / 4 * size.head**2
        return lump(size.d, size.engaged, area, head.head_height_mm, min(size.head, 2 * size.d))

    def _heated(self, source: HeatSource) -> Heated:
        """Return how hot it gets; a body that is warmed evenly gets as hot as it is made."""
        target = source.soft_c if self.situation.seized in SOFTENED else source.crust_c
        if self.gentle and source.method != WELD:  # the shank takes a weld's heat
            target = min(target, SOFT_C)
        flow = self._flows.get(self.situation.into)
        if source.power_w is None or flow is None:
            return Heated(target, 0.0)
        return heated(self._lump, flow, source.power_w, target)

    def _here(self, row: BondEffect) -> BondEffect:
        """Return an effect as it is here."""
        source = self.sources.get(row.method)
        if source is None or row.factor >= 1:
            return row
        soft = self.situation.seized in SOFTENED
        full = (source.soft_c if soft else source.crust_c) - ROOM_C
        share = self._rise(row.method) / full
        if soft:
            return row._replace(factor=row.factor**share)
        if source.warms == "body" or full < 0:
            return row._replace(factor=row.factor ** (self._growth(row.method) * share))
        if source.warms == "screw" and row.method != WELD:
            share *= self._stiff()
        left = row.factor**share
        if source.warms == "both" and self.light:  # the body grows away from the screw as well
            body = next(
                item.factor
                for item in self.facts.bond_effects
                if (item.method, item.seizure) == ("warm-host", row.seizure)
            )
            left *= body ** self._growth(row.method)
        return row._replace(factor=left)

    def _stiff(self) -> float:
        """Return how stiff a light body is against steel: a soft one gives way to a hot screw."""
        body, steel = self._stuffs[self.situation.into], self._stuffs[STEEL]
        if not self.light or body.modulus_mpa is None or steel.modulus_mpa is None:
            return 1.0
        return body.modulus_mpa / steel.modulus_mpa

    def _growth(self, method: str) -> float:
        """Return how far screw and body grow apart, as a share of the reference's growing."""
        pair = self.grows(method)
        if pair is None:
            return 0.0
        body, screw = pair
        steel, host = self._stuffs[STEEL], self._stuffs[REFERENCE]
        if self._rise(method) < 0:  # one that is chilled shrinks alike in every body
            assert steel.expansion_per_k is not None
            return screw.expansion_per_k / steel.expansion_per_k
        warm = (
            self._stuff(host, self._rise("warm-host")),
            self._stuff(steel, self._rise("warm-host")),
        )
        assert warm[0] is not None and warm[1] is not None
        eased = relief(self.size.d, body, screw) / relief(self.size.d, warm[0], warm[1])
        return min(max(eased, 0.0), MOST_GROWTH)
