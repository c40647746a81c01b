"""May the old one go back: the first rule whose cue fits."""

from collections.abc import Iterable

from fastkit.hardware.old import Old
from fastkit.records.replacement import ReuseRule


def reuse(rules: Iterable[ReuseRule], old: Old) -> tuple[ReuseRule, ...]:
    """
    Every rule that fits, the one that decides first.

    A verdict never gets milder by knowing more: of the rules that fit, renew goes before measure,
    measure before reuse; within one verdict the order of the file counts.
    """
    fitting = [rule for rule in rules if _fits(rule.cue, old)]
    told = [rule for rule in fitting if rule.cue != "-"] or fitting
    hardest = ("renew", "measure", "reuse")
    return tuple(sorted(told, key=lambda rule: hardest.index(rule.verdict)))


def _fits(cue: str, old: Old) -> bool:
    if cue == "-":
        return True
    what, _, value = cue.partition(":")
    if what == "kind":
        return old.kind == value
    said = {"state": old.states, "had": old.had, "safety": old.safety}[what]
    return bool(said) if value == "*" else value in said
