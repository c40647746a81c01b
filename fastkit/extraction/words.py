"""
Free words to fields of the situation, what was only taken from vague words, and what was not read.

The phrases come from the data and are passed in. The longest phrase wins, little words between its
words do not matter, and a word that is one slip of the keyboard from a known one is read as it.
An option that ends in `?` marks a reading of vague words, which the answer shows as assumed.
Besides the names of the situation's fields the phrases use these options:

    axis      above, beside, swing, side, pocket, engage, wasted: what a number beside it measures
    length    mm of a length said in words ("two fingers")
    distance  mm to the neighbour in the same clause ("touching")
    touching  a neighbour that the thing itself carries ("brake pipe nut"): it takes no number
    loose     a neighbour named as what comes away by itself (a hose, a gas strut)
    pipe      a neighbour named as a line with something in it, which has unions or a tap
    sealed    a neighbour named as what is shut for good (a gas strut, a damper)
    tool      a tool or method at hand, or lacking after a negation; `only`: all others lack
    owned     an option and a value that hold only of a machine one has: a welder may be what it is
    kin       a tool that is lacking along with it
    method    what was tried, where the clause says that something was tried
    cue       not, tried, or: what they do to the words after them
    form      socket: a hexagon's size belongs to a recess
    captive   the nut is held by the part: a bolt that spins takes it along
    place     where the fastener sits ("gearbox", "rocker cover"): it says no more of it
    filler    words that say nothing about the fastener
"""

import re
from collections.abc import Mapping

from fastkit.extraction.bare_sizes import (
    hexagon,
    is_length,
    lone,
    no_wider,
    of_head,
    too_wide,
    usual,
)
from fastkit.extraction.filled import RANKED, Filled
from fastkit.extraction.items import Item, says, turned
from fastkit.extraction.measures import AXIS_FIELD, BROKE, Amount, Label, assign
from fastkit.extraction.page import SNAPPED, STATES, Page
from fastkit.extraction.reading import Reading, Taken
from fastkit.extraction.situation import TURNING
from fastkit.extraction.stubs import FLUSH, SIDES
from fastkit.extraction.tokens import PRESSURE, clauses, tokenise
from fastkit.extraction.vocabulary import QUIET, Vocabulary
from fastkit.notation.designation import parse
from fastkit.records.source import FILLERS, Phrase

_FLAGS = ("left_hand", "no_heat", "insert", "prevailing")
_BARE_HEX = re.compile(
    r"(?<![:\w])hex(?:agon)?(?![\w-]| ?(?:socket|key|bit|recess|head|bolt|nut|cap))"
)
WRENCHES = "drive:driving-square"  # of the wrench, not of the fastener
PLUG_THREAD = "plug-"  # the threads of spark plugs, which name the part as well
ONLY, OTHERS = "only", "others"  # all tools but those named
NO_BIT = "system:one-way"  # no bit turns it out: read as a part
_NUT = re.compile(r"nut (\d+)")  # of a size: a class is said beside a thread or as such
SAYS_MORE = ("bolt", "bolts", "screw", "nut", "key", "keys", "spanner", "wrench", "bit", "bits")
_CAN = ("make-room", "drop-assembly", "bench")

SMALLEST_INCH_NUT = 11.0  # mm across flats, 1/4 in thread: what is less is a nut's thread
OUTER_KINDS = ("bolt", "nut", "tube-nut")
LINES = ("line", "pipe", "hose", "tube")
TAKES = ("axis", "axis?", "near", "near?")  # what a number beside it may measure
NOT_FIELDS = (
    *("axis", "length", "distance", "near", "touching", "loose", "pipe", "sealed", "cue"),
    *("place", "filler", "tube"),
)

# it is at hand, or it is not
OWNS = (
    *("got", "have", "had", "ive", "with", "using", "use", "used", "my", "only", "no", "without"),
    *("available", "handy", "tools", "borrow"),
)
HOLDS_OWN = ("tyre", "air")  # has a pressure of its own: a tyre, what runs on air
PLACES = (
    *("near", "beside", "behind", "under", "by", "above", "below", "to", "against", "from", "at"),
)
IN = ("in", "into", "of")  # `in plastic 20 mm deep` is the body's own
OF_BODY = {"engage", "deep"}  # what a length behind a body's name then measures
OWN = ("on", "of")  # `nut on a U-bolt` is the U-bolt's own, `bolt on the pulley` the pulley's place


def read(text: str, known: Vocabulary, aliases: Mapping[str, str]) -> Reading:
    """
    Return what a text says of a fastener that will not move.

    Args:
        text: Words as people type them.
        known: The phrases, from `vocabulary.vocabulary`.
        aliases: Trade names in the text and the entries they stand for, as
            `notation.designation.parse` takes them.

    >>> from fastkit.extraction.vocabulary import vocabulary
    >>> dict(read("T30, nothing else known", vocabulary(()), {}).given)
    {'drive': 'T30'}
    """
    page = _Reader(known.words)
    aliases = _designations(aliases)
    part = 0
    for number, clause in enumerate(clauses(text)):
        rest = page.find_designations(clause, aliases)
        tokens = tokenise(rest, number, part)
        page.add(tokens)
        part = tokens[-1].part + 1 if tokens else part
    page.find_phrases(known.beginning(set(page.norms)))
    page.find_part()
    page.find_sizes()
    page.find_beside()
    page.find_owned()
    page.say_not()
    page.find_pressures()
    page.measure()
    page.fill()
    page.find_lone_size()
    return page.reading()


def _is_tool(item: Item) -> bool:
    return any(row.option in ("tool", "owned", "power", "kin", "cue") for row in item.rows)


def _takes(row: Phrase) -> bool:
    """Say whether a number beside a phrase may belong to it."""
    return row.option in TAKES or (row.option.rstrip("?") == "damage" and row.value in SIDES)


def _designations(aliases: Mapping[str, str]) -> dict[str, str]:
    """Return the trade names of designations that swallow no word which says more."""
    return {
        words: entry
        for words, entry in aliases.items()
        if entry.partition(":")[0] in ("thread", "drive", "grade", "system")
        and not entry.startswith((WRENCHES, NO_BIT))
        and words.rpartition(" ")[2] not in SAYS_MORE
        # "stainless" is a coating here, no grade
        and not (entry.startswith("grade:") and words.isalpha())
    }


class _Reader(Page):
    """One text being read: its tokens, what has been made of them, the fields so far."""

    def __init__(self, known: frozenset[str]) -> None:
        super().__init__(known)
        self.near: list[tuple[str, float]] = []
        self.carried: set[str] = set()
        self.meant: list[str] = []
        self.fields = Filled()
        self.given = self.fields.given
        self.extra: list[str] = []
        self.after_thread: list[str] = []  # lengths said right behind a thread
        self.named: dict[str, str] = {}  # thread, drive and grade as they were written
        self.hexagon: str | None = None  # words of a hexagon that may be outside or a recess
        self.socket = False
        self.system: str | None = None

    # -- designations

    def find_designations(self, clause: str, aliases: Mapping[str, str]) -> str:
        """Read threads, drives and grades of a clause; return the rest of it."""
        rest: list[str] = []
        before = ""
        thread = False  # the word before was one
        parts = parse(clause, aliases)
        for number, part in enumerate(parts):
            if "thread" not in self.given and (nut := _NUT.fullmatch(part.text)):
                rest.append(f"nut size {nut[1]}")
            elif part.kind in ("thread", "drive", "grade"):
                if part.kind not in self.given:
                    self.given[part.kind] = part.key
                    self.named[part.kind] = part.text
                    if part.kind == "drive" and _BARE_HEX.search(part.text):
                        self.hexagon = part.text
                    rest += [word for word in part.text.split() if word in SAYS_MORE]
                    if part.key.startswith(PLUG_THREAD):
                        rest.append("spark plug")
                elif self.given[part.kind] != part.key:
                    self.extra.append(part.text)
            elif before.startswith("drive:") and before.endswith(f"-m{part.key}"):
                pass  # `M8 triple square 8`: its size once more
            elif part.kind == "length" and part.text == before:
                self.extra.append(part.key)  # the screw's length in M8x30
            elif part.text.startswith("system:"):
                self.system = part.text.removeprefix("system:")
                self.socket |= self.system == "hex-socket"
            elif any(one.key in ("turn", "turns") for one in parts[number + 1 : number + 2]):
                rest.append(part.text)  # `1/4 turn` is an arc
            else:
                rest.append(part.key)
                if thread and part.kind == "length":
                    self.after_thread.append(part.key)
            before, thread = part.text, part.kind == "thread"
        return " ".join(rest)

    def find_part(self) -> None:
        """Leave unread the names of parts that only say where it is: `beside the spark plug`."""
        named: set[str] = set()
        parts: set[str] = set()
        for number, item in enumerate(self.items):
            mine = {row.value for row in item.rows if row.option == "part"}
            kinds = {row.value for row in item.rows if row.option == "kind"}
            if mine:
                before = self.word_before(item.at)
                again = bool(mine & parts)  # said once more, or of its own pin, cap or taper
                own = not named or (before in OWN and bool(named & kinds))
                elsewhere = not again and (not own or before in PLACES)
                parts |= mine if not elsewhere else set()
                rows = tuple([row for row in item.rows if (row.option == "near") == elsewhere])
                self.items[number] = item._replace(rows=rows)
                self.use(item.span, bool(rows))
            named |= kinds

    def find_sizes(self) -> None:
        """Read `17 mm nut`, `17 head` and `size 17` as across flats, `3/8 bolt` as thread."""
        rows = [(item.at, row) for item in self.items for row in item.rows]
        kinds = {at: row.value for at, row in rows if row.option == "kind"}
        recess = self.socket or any(row.option == "form" for _, row in rows)
        beside = {  # `17 mm hose bolt`
            item.at: kinds.get(max(item.span) + 1)
            for item in self.items
            if any(row.option == "near" for row in item.rows)
        }
        for at, token in enumerate(self.tokens):
            if not recess and of_head(self.tokens, self.norms, at):
                self._sized(at, "af", True, f"{token.text} head")
                continue
            kind = kinds.get(at + 1) or beside.get(at + 1)
            if not kind or not token.measure or token.measure[1] != "mm":
                continue
            words = f"{token.text} {kind}"
            of_nut = kind == "nut" and token.measure[0][0] < SMALLEST_INCH_NUT
            if "/" in token.text and (kind in ("bolt", "stud", "screw") or of_nut):
                if "thread" not in self.given and len(token.measure[0]) == 1:
                    self.use((at,))
                    self.fields.put("thread", token.text.removesuffix("in").strip(), True, words)
            elif kind in OUTER_KINDS:
                self._sized(at, "af", kind == "bolt", words)
        thread = str(self.given.get("thread"))
        for at, token in enumerate(self.tokens if not recess else ()):
            behind_it = at == 0 or token.text in self.after_thread
            if behind_it and usual(token, thread) and not self._measured(at):
                self._sized(at, "af", True, token.text)

    def _measured(self, at: int) -> bool:
        """Say whether the word behind a length takes it: `10 mm above`, `12 mm proud`."""
        behind = [row for item in self.items if item.at == at + 1 for row in item.rows]
        return self.measured_by_next(at) or any(_takes(row) for row in behind)

    def _sized(self, at: int, form: str, vague: bool, words: str) -> None:
        """Read a number as the size of a drive, where there is such a one and none is known."""
        size = self.tokens[at].text
        if self._of_tube(size):
            return
        found = parse(f"{size}{' mm' if size.isdigit() else ''} {form}")
        if "drive" in self.given or len(found) != 1 or found[0].kind != "drive":
            return
        if not self._too_wide(found[0].key):
            self.use((at,))
            self.fields.put("drive", found[0].key, vague, words)

    def _of_tube(self, size: str) -> bool:
        """Say whether a size is that of the tube that the nut goes by, and no hexagon's."""
        rows = [row for item in self.items for row in item.rows if row.option == "tube"]
        return any(row.value == "any" or size.endswith("in") for row in rows)

    def _too_wide(self, drive: object) -> bool:
        """Say whether a drive is a hexagon outside that no head of the thread has."""
        system, _, size = str(drive).partition("-")
        return system == "AF" and too_wide(size, str(self.given.get("thread")))

    def find_beside(self) -> None:
        """Read the name of a body as that of what stands beside, where a distance says so."""
        for number, item in enumerate(self.items):
            if any(row.value == "plastic" for row in item.rows) and self._beside(item):
                rows = [
                    row._replace(option="near") if row.option == "into" else row
                    for row in item.rows
                ]
                self.items[number] = item._replace(rows=tuple(rows))

    # -- negation and attempts

    def find_owned(self) -> None:
        """Read a machine as a tool at hand only where somebody has it: `got a welder`."""
        for number, item in enumerate(self.items):
            mine = [row for row in item.rows if row.option == "owned"]
            if mine and self._owned(item):
                rows = []
                for row in mine:
                    option, value = row.value.split()
                    rows.append(row._replace(option=option, value=value))
            else:
                rows = [row for row in item.rows if row.option != "owned"]
            self.items[number] = item._replace(rows=tuple(rows))

    def _owned(self, machine: Item) -> bool:
        """Say whether one is said to have a machine or not, or lists it among nothing but tools."""
        tools = {at for item in self.items if _is_tool(item) for at in item.span}
        here = [at for at, token in enumerate(self.tokens) if token.clause == machine.clause]
        for at in reversed([at for at in here if at < machine.at]):
            if self.norms[at] in OWNS:
                return True
            if at not in tools and self.norms[at] not in QUIET:
                return False
        return all(at in tools or self.norms[at] in (*QUIET, *OWNS) for at in here)

    def say_not(self) -> None:
        """Turn round what a negation stands before, and keep apart what was tried."""
        firsts = {token.clause: token.norm for token in reversed(self.tokens)}
        going_on = {number for number, word in firsts.items() if word in ("then", "and", "also")}
        words = [token.norm for token in self.tokens]
        methods = {
            item.at: [row.value for row in item.rows if row.option == "method"]
            for item in self.items
        }
        self.items, unread = turned(self.items, words, going_on)
        for item in unread:
            self.use(item.span, False)
            self.meant += methods[item.at]
        for item in self.items:  # `torch it`: more than a torch at hand
            if self.norms[max(item.span) + 1 : max(item.span) + 2] == ["it"]:
                self.meant += methods[item.at]

    # -- numbers

    def find_pressures(self) -> None:
        """Read so many bar as pressure behind it, unless a tyre or a tool in the clause has it."""
        for at, token in enumerate(self.tokens):
            if not token.measure or token.measure[1] != PRESSURE:
                continue
            self.use((at,))
            here = [row for item in self.items if item.clause == token.clause for row in item.rows]
            another = any(row.option == "tool" or row.value in HOLDS_OWN for row in here)
            if any(token.measure[0]) and not another:
                row = Phrase._make((token.text, "load", "pressure", "-", "-", "-"))
                self.items.append(Item(at, (at,), token.clause, token.part, token.text, (row,)))

    def measure(self) -> None:
        """Give every number to the axis or neighbour of its own stretch of the text."""
        told = {item.part for item in self.items if any(_takes(row) for row in item.rows)}
        sizes = {
            at
            for at in self.after_kinds()
            if at < len(self.tokens)
            and is_length(self.tokens[at])
            and (self.tokens[at].part not in told or self._state_follows(at))
        } | self.named_sizes("thread" in self.given)
        amounts = [
            Amount(at, token.part, *token.measure, False, token.text)
            for at, token in enumerate(self.tokens)
            if token.measure and not self.used[at] and at not in sizes
        ]
        axes: list[Label] = []
        things: list[Label] = []
        distances: list[Amount] = []
        for item in self.items:
            for row in item.rows:
                option, vague = row.option.rstrip("?"), row.option.endswith("?")
                place, named = (item.at, item.part), (item.at, max(item.span), item.part)
                if option == "axis":
                    axes.append(Label(*named, row.value, vague, item.text))
                elif option == "damage" and row.value in SIDES:
                    axes.append(Label(*named, "stub", False, item.text))
                elif option == "damage" and row.value == FLUSH:
                    axes.append(Label(*named, BROKE, False, item.text))
                elif option == "near" and self._line_nut(item):
                    self._touch(row.value, True, item.text)
                elif option == "near":
                    things.append(Label(*named, row.value, vague, item.text))
                    if self._of_its_own(item):
                        self.carried.add(row.value)
                elif option == "touching":
                    self._touch(row.value, vague, item.text)
                elif option == "length":
                    amounts.append(Amount(*place, (float(row.value),), "mm", True, item.text))
                elif option == "distance":
                    distances.append(Amount(*place, (float(row.value),), "mm", vague, item.text))
        found = assign(sorted(amounts), axes, things, distances)
        for field in found.fields:
            if field.field in RANKED:
                self.fields.rank(field.field, str(field.value), field.vague, field.words)
            else:
                self.fields.put(field.field, field.value, field.vague, field.words)
            self.use(field.used, self.given[field.field] == field.value)
        for beside in found.near:
            self.use(beside.used)
            self.near.append((beside.thing, beside.mm))
            if beside.vague:
                self.fields.taken.append(
                    Taken("near", f"{beside.thing} {beside.mm:g} mm", beside.words)
                )

    def _state_follows(self, at: int) -> bool:
        """Say whether a state comes after a length before all it may measure: `21 mm spins`."""
        part = self.tokens[at].part
        here = [item for item in self.items if item.part == part and item.at > at]
        takes = [item.at for item in here if any(row.option in TAKES for row in item.rows)]
        states = [item.at for item in here if any(row.option in STATES for row in item.rows)]
        return any(state < min(takes, default=len(self.tokens)) for state in states)

    def _beside(self, item: Item) -> bool:
        """Say whether a body stands beside: `in aluminium, 8 mm to plastic`, `plastic 50 mm`."""
        behind = item.span[-1] + 1
        if self.same_clause(behind, item.at) and not self.used[behind]:
            says = {row.value for one in self.items if one.at == behind + 1 for row in one.rows}
            its_own = self.word_before(item.at) in IN or bool(says & OF_BODY)
            if is_length(self.tokens[behind]) and not its_own:
                return True
        before = [at for at in range(item.at) if self.norms[at] not in FILLERS][-1:]
        named = any(
            one is not item and row.option == "into" for one in self.items for row in one.rows
        )
        return named and any(is_length(self.tokens[at]) for at in before)

    def _of_its_own(self, item: Item) -> bool:
        """Say whether a neighbour is named for its fastener, `abs pump bolt`: it carries it."""
        return any(
            one.at == item.span[-1] + 1 and row.option == "kind"
            for one in self.items
            for row in one.rows
        )

    def _touch(self, thing: str, vague: bool, words: str) -> None:
        self.carried.add(thing)
        self.near.append((thing, 0.0))
        if vague:
            self.fields.taken.append(Taken("near", f"{thing} 0 mm", words))

    def _line_nut(self, item: Item) -> bool:
        """Say whether a line is named for its nut, `fuel line nut`: the nut holds its pipe."""
        if item.text.rpartition(" ")[2] not in LINES:
            return False
        after = next((one for one in self.items if one.at == item.span[-1] + 1), None)
        if after is None or not any(says(after, "kind", kind) for kind in ("nut", "tube-nut")):
            return False
        self.fields.put("kind", "tube-nut", False, item.text)
        return True

    def find_lone_size(self) -> None:
        """Read the length that measures nothing else as the drive's."""
        named = self.named_sizes("thread" in self.given)
        last = len(self.tokens) - 1
        found = lone(self.tokens, self.used, self.after_kinds() | named | {last})
        on_flats = self.given.get("kind") in OUTER_KINDS
        damage = str(self.given.get("damage"))
        # a stub that is flush has no length of its own, one that is proud or below has
        whole = damage == FLUSH or not damage.startswith("snapped")
        if len(found) == 1 and (whole or found[0] in named) and (self.socket or on_flats):
            text = self.tokens[found[0]].text
            self._sized(found[0], "hex socket" if self.socket else "af", True, text)

    # -- the rest

    def fill(self) -> None:
        """Fill the plain fields: ranked by the worst word, lists in order, others by the first."""
        can: list[str] = []
        cannot: list[str] = []
        captive = False
        for item in self.items:
            for row in item.rows:
                option, vague = row.option.rstrip("?"), row.option.endswith("?")
                if option == "form":
                    self.socket = True
                elif option == "captive":
                    captive = True
                elif option == "can":
                    can.append(row.value)
                elif option == "cannot":
                    cannot.append(row.value)
                elif option in ("tool", "lack", "method"):
                    field = {"tool": "have", "lack": "lack", "method": "tried"}[option]
                    self.fields.add(field, row.value, vague, item.text)
                elif option in _FLAGS:
                    self.fields.put(option, True, vague, item.text)
                elif option in RANKED:
                    self.fields.rank(option, row.value, vague, item.text)
                elif option == "side_mm":
                    width, _, depth = row.value.partition("x")
                    self.fields.put(option, (float(width), float(depth)), vague, item.text)
                elif option in AXIS_FIELD.values():
                    self.fields.put(option, float(row.value), vague, item.text)
                elif option not in NOT_FIELDS:
                    self.fields.put(option, row.value, vague, item.text)
        if self.given.get("damage") == "nut-spinning" and self._bare_nut():
            self.given |= {"kind": "nut", "damage": "spinning"}
        if self.given.get("damage") in TURNING:
            self.fields.forget("seized")
        if self.given.get("kind") == "stud" and self._nut_on_it():
            self.given["kind"] = "nut"
        captive |= self.given.get("kind") == "nut" and self._bolt_turns()
        if captive and self.given.get("damage") == "spinning":
            self.given["damage"] = "nut-spinning"
        self._two_loads()
        if self._no_others():
            self.fields.add("lack", OTHERS, True, "only")
        if cannot and not can:
            can = [move for move in _CAN if move not in cannot]
        if can or cannot:
            self.given["can"] = tuple((move, None) for move in dict.fromkeys(can))
        if self.near:
            self.given["near"] = tuple(self.near)
        tried = self.given.get("tried", ())
        if isinstance(tried, tuple) and "soak-penetrant" in tried and "residue" not in self.given:
            self.fields.put("residue", "flammable", True, "soaked")
        if self.hexagon:
            self._settle_hexagon(self.hexagon)
        if "drive" in self.named and self._too_wide(self.given.get("drive")):
            self.fields.forget("drive")
            self.given.pop("drive", None)
            self.extra.append(self.named["drive"])

    def _no_others(self) -> bool:
        """Say whether the tools named are all there are: `hammer and chisel only`."""
        had = [item for item in self.items if any(row.option == "tool" for row in item.rows)]
        for clause in {item.clause for item in had}:
            places = [at for item in had if item.clause == clause for at in item.span]
            here = [at for at, token in enumerate(self.tokens) if token.clause == clause]
            after = {self.norms[at] for at in here if at > max(places)} - FILLERS
            before = [self.norms[at] for at in here if at < min(places)]
            before = [norm for norm in before if norm not in FILLERS][-1:]
            if after == {ONLY} or (not after and before == [ONLY]):
                return True
        return False

    def _two_loads(self) -> None:
        """Keep a spring or a weight beside a pressure: what is under it then touches the work."""
        loads = {row.value for item in self.items for row in item.rows if row.option == "load"}
        held = next((load for load in ("spring", "weight") if load in loads), None)
        if held and "pressure" in loads:
            self.given["load"] = held
            self.near.append(("pressurised", 0.0))

    def _nut_on_it(self) -> bool:
        """Say whether a stud is only where the nut stands: `wheel stud nut seized`."""
        broken = self.given.get("damage") in (*SNAPPED, "extractor-broken")
        return not broken and any(says(item, "kind", "nut") for item in self.items)

    def _bolt_turns(self) -> bool:
        """Say whether it is the bolt of a nut that spins: `nut rusted, bolt turns with it`."""
        return any(
            says(item, "kind", "bolt") and says(item, "damage", "spinning") for item in self.items
        )

    def _bare_nut(self) -> bool:
        """Say whether the nut that spins is the fastener: nothing else is named."""
        return "kind" not in self.given and any(
            item.text in ("nut spins", "nut turns") for item in self.items
        )

    def _settle_hexagon(self, words: str) -> None:
        """Say whether a bare `10 mm hex` is a recess or the outside: by the words, else by size."""
        size = str(self.given["drive"]).partition("-")[2]
        socket = self.socket or no_wider(size, str(self.given.get("thread")))
        drive, doubtful = hexagon(size, socket, self.given.get("kind") in OUTER_KINDS)
        self.given["drive"] = drive
        if doubtful:
            self.fields.taken.append(Taken("drive", drive, words))

    def reading(self) -> Reading:
        """Return the fields, with everything that nobody could use."""
        left = tuple(
            token.text
            for i, token in enumerate(self.tokens)
            if not self.used[i] and token.norm not in QUIET
        )
        return Reading(
            self.given,
            tuple(self.fields.taken),
            (*left, *self.extra),
            self.system,
            self._named_as("loose"),
            tuple(sorted(self.carried)),
            tuple(dict.fromkeys(self.meant)),
            self._named_as("pipe"),
            self._named_as("sealed"),
        )

    def _named_as(self, option: str) -> tuple[str, ...]:
        """Return the neighbours that are named as such, however often they are named."""
        found: dict[str, bool] = {}
        for item in self.items:
            such = {row.value for row in item.rows if row.option == option}
            for row in item.rows:
                if row.option.rstrip("?") == "near":
                    found[row.value] = found.get(row.value, True) and row.value in such
        return tuple(thing for thing, is_such in found.items() if is_such)
