"""What the question of a stuck fastener is answered with, and its JSON document."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fastkit.answers.near import NearTool
from fastkit.answers.sizes import Told
from fastkit.answers.wording import Names
from fastkit.errors import Misuse
from fastkit.extraction.result import Assumption, Later, Measure, Reason, Turned, WeakestLink
from fastkit.extraction.rules import Never
from fastkit.extraction.situation import Situation
from fastkit.notation.entry import entry_id
from fastkit.reach.fit import Margins, Shortfall
from fastkit.records.own import OwnTries
from fastkit.records.part import Part
from fastkit.reference.lookup import nearest

NO_WAY = "no safe way is left here; what is ruled out says what would bring one back"

EMPTY: Mapping[str, Any] = {
    "situation": None,
    "not_understood": [],
    "assumed": [],
    "plan": [],
    "ruled_out": [],
    "expected_minutes": None,
    "chance": None,
    "stop_when": [],
    "leads_to": None,
    "measure_next": None,
    "own": [],
    "near_fits": [],
    "part_note": None,
    "dangers": [],
    "afterwards": [],
}


class Step(NamedTuple):
    """One method that is not ruled out, in words; fields as the JSON keys."""

    rank: int
    method: str
    variant: str | None
    verdict: str  # first, next, last-resort
    chance: float
    minutes: float
    expected_minutes: float
    margins: Margins
    weakest_link: WeakestLink | None
    outcomes: Mapping[str, float]
    why: str
    needs: tuple[str, ...]
    after: str | None
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    if_it_fails: str
    kind: str  # gate, treat, turn, part, room; not in the document
    conditions: tuple[str, ...]  # what a near neighbour asks for; in the document among cautions
    later: tuple[str, ...]  # what `if_it_fails` asks for where it is then done; not in the document
    told: Mapping[str, str]  # the sentences of `why` by their codes; not in the document
    sizes: tuple[Told, ...]  # for this very fastener
    treats: tuple[float, float] | None  # torque before and after it [N·m]; not in the document


class Out(NamedTuple):
    """One method that is ruled out, in words; `reason` is not in the document, its code is."""

    method: str
    reason: Reason
    because: str
    short_by: Shortfall | None
    opens_it: str | None


class ExtractAnswer(NamedTuple):
    """
    The plan in words; `document` makes the JSON of it.

    `said` names the fields that words or options filled, `vague` those of them that only vague
    words did; `shank_nm` is what the shank carries [N·m]; `titles` holds the titles of methods and
    tools by entry id, `variants` those of the tools' variants by method and variant.
    """

    words: str
    situation: Situation
    said: frozenset[str]
    vague: frozenset[str]
    not_understood: tuple[str, ...]
    assumed: tuple[Assumption, ...]
    plan: tuple[Step, ...]
    ruled_out: tuple[Out, ...]
    expected_minutes: float
    chance: float
    stop_when: tuple[str, ...]
    leads_to: Turned | None  # what the treatments that come first make way for
    in_room_made: Turned | None  # what follows where the first move makes room; not in the document
    measure_next: Measure | None
    shank_nm: float
    titles: Names
    variants: Mapping[tuple[str, str], str]
    governs: str
    own: tuple[OwnTries, ...]  # the user's own attempts at this kind of seizure
    own_said: tuple[str, ...]  # what is wrong with the own file
    near: tuple[NearTool, ...]  # near fits of a drive that has suffered, the loosest first
    never: Never  # what no fire may do here
    part: Part | None  # that the fastener is by its name
    last: Later | None  # the last move worth making, that `stop_when` names; not in the document
    guards: Mapping[str, tuple[str, ...]]  # what whoever uses a method minds; not in the document
    dangers: tuple[str, ...]  # what the words tell of; what is meant, was tried, or is planned
    afterwards: tuple[str, ...]  # what is done once a line was opened, what is not put back
    hot: frozenset[str]  # methods that heat it; this and the next not in the document
    oily: frozenset[str]  # those that want oil on it, and do not heat

    def compare(self, *methods: str) -> tuple[Step | Out, ...]:
        """
        Return what the plan holds of each method.

        Raises:
            Misuse: When a method is not in the data.
        """
        found: dict[str, Step | Out] = {row.method: row for row in self.ruled_out}
        found.update((step.method, step) for step in self.plan)
        for method in methods:
            if method not in found:
                raise Misuse(
                    f"--compare {method[:60]!r}: no such method", nearest(method, sorted(found), 1)
                )
        return tuple(found[method] for method in methods)

    def document(self, compared: tuple[Step | Out, ...] | None = None) -> dict[str, Any]:
        """Return the JSON document, with what is compared where something is."""
        extra: dict[str, Any] = {} if self.plan else {"reason": NO_WAY}
        if compared:
            extra["compare"] = [_row_document(row) for row in compared]
        return {
            "situation": situation_document(self.situation),
            "not_understood": list(self.not_understood),
            "assumed": [
                {**item._asdict(), "what": _key(item.what), "value": _plain(item.what, item.value)}
                for item in self.assumed
            ],
            "plan": [_step_document(step) for step in self.plan],
            "ruled_out": [_out_document(out) for out in self.ruled_out],
            "expected_minutes": self.expected_minutes,
            "chance": self.chance,
            "stop_when": list(self.stop_when),
            "leads_to": self.leads_to and _ahead_document(self.leads_to),
            "measure_next": self.measure_next and self.measure_next._asdict(),
            "own": [row._asdict() for row in self.own],
            "near_fits": [fit._asdict() for fit in self.near],
            "part_note": self.part and self.part.note,
            "dangers": list(self.dangers),
            "afterwards": list(self.afterwards),
            **extra,
        }


def situation_document(situation: Situation) -> dict[str, Any]:
    """Return a situation under the options' own names, designations as entry ids."""
    return {
        _key(name): _plain(name, value)
        for name, value in situation._asdict().items()
        if name not in ("loose", "rigid", "piped", "sealed")  # which no option says
    }


def _key(field: str) -> str:
    """Return the JSON key of a field: the option's own name."""
    return "spoil" if field == "spoil_min" else field


def _plain(field: str, value: Any) -> Any:
    if field in ("thread", "grade", "drive"):
        return value and entry_id(field, value)
    if field == "near":
        return [near._asdict() for near in value] if isinstance(value, tuple) else value
    if field == "can":
        return value and [{"move": move, "minutes": minutes} for move, minutes in value]
    return list(value) if isinstance(value, tuple) else value


def _step_document(step: Step) -> dict[str, Any]:
    link = step.weakest_link
    fields = step._asdict()
    for inner in ("kind", "conditions", "later", "told", "treats"):
        del fields[inner]
    return {
        **fields,
        "margins": step.margins._asdict(),
        "weakest_link": link and {**link._asdict(), "required_nm": list(link.required_nm)},
        "outcomes": dict(step.outcomes),
        "needs": [entry_id("tool", tool) for tool in step.needs],
        "steps": list(step.steps),
        "cautions": list(step.cautions),
        "sizes": [size.document() for size in step.sizes],
    }


def _row_document(row: Step | Out) -> dict[str, Any]:
    return _step_document(row) if isinstance(row, Step) else _out_document(row)


def _out_document(out: Out) -> dict[str, Any]:
    return {
        "method": out.method,
        "code": out.reason.code,
        "because": out.because,
        "short_by": out.short_by and out.short_by._asdict(),
        "opens_it": out.opens_it,
    }


def _ahead_document(turned: Turned) -> dict[str, Any]:
    fields = turned._asdict()
    del fields["away"]
    return fields
