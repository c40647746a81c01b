"""
Anything by a few words: designations are read first, then names are matched.

Spelling is forgiven in names only, never in a designation: a word that the file does not know is
compared with the distinct words it knows, so the cost grows with the language, not with the rows.
"""

import re
import sqlite3
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from fastkit.notation.designation import parse, thread_name
from fastkit.notation.entry import PROMINENT, entry_id, split_id
from fastkit.notation.other_threads import NUMBERED
from fastkit.notation.rules import Part
from fastkit.reference.aliases import closed_up, readable, spoken, unheld, written
from fastkit.reference.counted import COUNTED
from fastkit.reference.gathered import POOL, entries, indexed, match
from fastkit.reference.heard import STANDARDS, heard
from fastkit.reference.said import DENYING, IDLE_WORDS, OF_THREADS, denied, weighed
from fastkit.reference.scoring import HELD, LENGTH, Entry, Term, score
from fastkit.reference.spelling import EMPTY_WORDS, cut, forms, misspelt, spelt
from fastkit.reference.store import query
from fastkit.reference.threads import threads

WRITTEN = ("thread", "drive", "grade")  # kinds that are asked for by what they are written as
STANDARD = rf"(?:{'|'.join(STANDARDS)}) (\d{{3,}})"  # asked for by its number, and no more
JOINED = r"[a-z]*\d+(?:[./-]\d+)+"  # 12.8, 60-40-18: one thing, never its parts
PITCH = r"\d?\.\d+"  # of a thread, where it stands apart from it
LONGEST, MOST_WORDS = 300, 16  # letters and words of a query that are looked at
DIGIT = 0.3  # weight of a lone digit or letter
NUMBER = 2.0  # weight of a number as standards and materials have it, three digits or more
DESIGNATION = 2.0  # weight of a designation against a word's 1
FAINT = 0.5  # weight of a figure in what is said of an entry that has no size
MATERIAL = 0.8  # worth of a grade's word in an entry that is not that grade
WEAKEST = 30.0  # a hit below this score is none
OF_A_HEXAGON = r"^(?:AF|hex)-"  # before the length that is its size
SIZES_BEFORE = ("T", "E", "PH", "PZ", "SQ", "M", "P", "#")  # what stands before a drive's number
APART = str.maketrans("-/.", "   ")
HEXAGONS = ("hexagon", "hex-socket")  # forms of drive whose size is a length
NUTS = ("nut", "nuts")
# millimetres are a thread's size beside the first of these words, never beside the second
OF_SIZES = frozenset("bolt bolts clearance pitch stud studs tap tapping thread threads".split())
OF_HEADS = frozenset(
    "across broke broken chewed corners flats head heads rounded seized slot snapped stuck".split()
) | {"washer"}
# beside these a length is that of their square, and a tool is meant
OF_SQUARES = frozenset("breaker extension impact ratchet".split())
SQUARE, TURNED = "driving-square-", OF_SQUARES - {"ratchet"}  # `1/2 drive ratchet` is a square
NO_PART = EMPTY_WORDS | {"size", "sizes"}  # beside a part these name none
OF_BOLTS = OF_THREADS | {"bolt", "bolts", "screw", "screws", "nut", "nuts", "thread", "threads"}


class Hit(NamedTuple):
    """One entry found; `score` of 100 is all that was asked for, called by its own name."""

    id: str
    kind: str
    title: str
    score: float


class Found(NamedTuple):
    """What was understood, the hits, best first, and the ids nearest to what was not found."""

    read_as: str
    hits: tuple[Hit, ...]
    nearest: tuple[str, ...] = ()


def search(
    store: sqlite3.Connection, words: str, limit: int = 10, kind: str | None = None
) -> Found:
    """
    Entries that *words* ask for, best first; the same question always gets the same answer.

    Args:
        store: The compiled file.
        words: As people type.
        limit: Most hits to return.
        kind: Only entries of this kind; of any if left out.
    """
    text = " ".join(readable(words)[:LONGEST].split())
    whole = split_id(text)
    if whole and kind in {None, whole[0]}:
        exact = entries(store, [":".join(whole)])
        if exact:
            return Found(f"entry {exact[0].id}", (_hit(exact[0], 100.0),))
    if text.isascii() and text.isdigit() and len(text) < 4:
        text += " mm"
    if kind is None and text.lower().removesuffix("s") in PROMINENT:
        return _all_of(store, text.lower().removesuffix("s"), limit)
    return _asked(store, text, limit, kind)


def _asked(store: sqlite3.Connection, typed: str, limit: int, kind: str | None) -> Found:
    """Entries that a line asks for which is no id, number or name of a kind."""
    plain = spelt(store, typed)
    part, like = unheld(store, plain, NO_PART)
    if part:
        near = _asked(store, like, 3, kind).hits
        return Found(f"{part}, of which nothing is held", (), tuple(hit.id for hit in near))
    text = heard(written(store, closed_up(store, plain)))
    core = " ".join(word for word in text.lower().split() if word.strip("?!.,") not in EMPTY_WORDS)
    lines = dict.fromkeys((typed.lower(), text))
    names = {alias: ids for line in lines for alias, ids in spoken(store, line).items()}
    parts = parse(text, {alias: ids[0] for alias, ids in names.items()})
    slug = "-".join(cut(text))
    known = (names.get(line) for line in (text, typed.lower()))
    called = (
        *_held(store, [entry_id(k, slug) for k in PROMINENT]),
        *next((ids for ids in known if ids), ()),
    )
    not_meant = denied(text)
    parts = _pitched(store, _numbered(store, parts))
    terms = [
        term._replace(denied=not not_meant.isdisjoint(term.phrases[:1]))
        for term in _terms(store, _meant(parts), names)
    ]
    likely = _candidates(terms, called, names)
    pool = {entry.id: entry for entry in entries(store, likely)}
    pool |= {entry.id: entry for entry in indexed(store, terms, kind)}
    asked = {*text.split(), *cut(text), *(word for term in terms for word, _ in term.words)}
    aliases = _aliases(store, pool, asked)
    said = (weighed(text), weighed(text, FAINT))
    scored = [
        _hit(entry, score(entry, terms, called, aliases.get(entry.id, ()), said, not_meant))
        for entry in pool.values()
        if kind in {None, entry.kind}
    ]
    words = frozenset(cut(text))
    order = {id_: n for n, id_ in enumerate(likely)}
    hits = sorted(
        (hit for hit in scored if hit.score >= WEAKEST),
        key=lambda hit: (
            *(-hit.score, hit.id not in called, not _whole(hit.id, words)),
            order.get(hit.id, len(order)),
            pool[hit.id].place,
        ),
    )
    read_as = ", ".join(_said(part, terms) for part in parts)
    standard = re.fullmatch(STANDARD, core)
    if standard and not any(standard[1] in pool[hit.id].words for hit in hits):
        return Found(read_as, (), _nearest_of(store, ("source",), core.replace(" ", "-")))
    return Found(read_as, tuple(hits[:limit]), () if hits else _nearest(store, parts, kind, typed))


def _whole(id_: str, words: frozenset[str]) -> bool:
    """Whether an entry's key was said whole, where that says more than one word of letters."""
    key = id_.partition(":")[2]
    said = cut(key)
    return words.issuperset(said) and not (len(said) == 1 and key.isalpha())


def _all_of(store: sqlite3.Connection, kind: str, limit: int) -> Found:
    """The entries of a kind, where its name is all that was said."""
    sql = "SELECT id, kind, title FROM entry WHERE kind = ? ORDER BY rowid LIMIT ?"
    rows = query(store, sql, (kind, limit))
    return Found(f"every {kind}", tuple(Hit(id_, kind, title, HELD) for id_, kind, title in rows))


def _said(part: Part, terms: Iterable[Term]) -> str:
    """A part as it was read, with the known word in brackets that a misspelt one is taken for."""
    if part.kind != "word":
        return f"{part.kind} {part.key}"
    typed = part.key
    near = [term.words[0][0] for term in terms if term.said == typed and term.words]
    other = next((w for w in near if not w.startswith(typed) and not typed.startswith(w)), None)
    return f"{typed} ({other})" if other else typed


def _hit(entry: Entry, score: float) -> Hit:
    return Hit(entry.id, entry.kind, entry.title, round(score, 1))


def _terms(
    store: sqlite3.Connection, parts: Iterable[Part], names: Mapping[str, Sequence[str]]
) -> Iterator[Term]:
    """What is asked for, part by part; words that ask for nothing left out."""
    tokens: list[str] = []
    materials = {ids[0].lower(): alias for alias, ids in names.items() if ids[0][:6] == "grade:"}
    named, threaded = False, any(part.kind == "thread" for part in parts)
    hole = any(
        part.kind == "grade" or (part.kind == "word" and part.key in OF_BOLTS) for part in parts
    )
    words_ = {part.key for part in parts if part.kind == "word"}
    sized = not (threaded or words_ & OF_HEADS) and bool(words_ & OF_SIZES)
    nut = not threaded and any(part.kind == "word" and part.key in NUTS for part in parts)
    systems = {part.key for part in parts if part.kind == "system"}
    shanks = {part.text for part in parts if part.kind == "thread"}  # M8x30 says a length besides
    for part in parts:
        if part.kind == "length" and part.text in shanks:
            yield Term(DIGIT)
            continue
        turned = {"length": OF_SQUARES, "drive": TURNED}.get(part.kind, frozenset())
        if words_ & turned and (part.kind == "length" or part.key.startswith(SQUARE)):
            yield Term(DIGIT, words=(("tool", 1.0),))
            continue
        ids = _ids(store, part) or _of_system(store, part, parts)
        if part.kind == "length" and "hex-socket" in systems:
            ids.sort(key=lambda id_: not id_.startswith("drive:hex-"))
        if part.kind == "grade" and nut:
            ids = _held(store, [f"grade:nut-{part.key}"]) + ids
        if part.kind == "length" and (hole if part.key.endswith("in") else sized):
            ids = [id_ for id_ in ids if id_.startswith("thread:")] or ids
            threaded |= ids[:1] != [] and ids[0].startswith("thread:")
        named |= bool(ids)
        if ids:
            keys = [id_.partition(":")[2] for id_ in ids]
            held = dict.fromkeys(phrase for key in keys for phrase in (key, _size(part, key)))
            phrases = tuple(phrase for phrase in held if phrase)
            worth = 1.0 if part.kind != "thread" or thread_name(part.key).pitch is None else 0.6
            # "stainless" is a class of bolts, and a word of what else is made of it
            said = cut(materials.get(part.text, ""))
            spelt = [word for word in said if word.isalpha() and word not in IDLE_WORDS]
            words = tuple((word, MATERIAL) for word in spelt)
            phrases += tuple(word for word, _ in words)
            phrases = (*dict.fromkeys((*phrases, part.key, LENGTH.sub(r"\1 \2", part.key))),)
            weight = 1.0 if spelt else DESIGNATION
            length = re.sub(OF_A_HEXAGON, "", part.key)
            found = Term(weight, tuple(ids), words, phrases, worth, length)
            size = thread_name(part.key).size if part.kind == "thread" else ""
            yield found._replace(length="", size=size) if size else found
        elif part.kind in {"thread", "drive", "grade"}:
            yield Term(DESIGNATION)
        elif part.key[-1].isdigit() and re.fullmatch(JOINED, part.key):
            yield Term(NUMBER, phrases=(part.key,), length=part.key)
        else:
            tokens += cut(part.key)
    idle = EMPTY_WORDS | IDLE_WORDS if named else EMPTY_WORDS
    idle |= OF_THREADS if threaded else frozenset()
    asked = [token for token in dict.fromkeys(tokens) if token not in idle]
    for token in asked[:MOST_WORDS]:
        known = tuple(forms(store, token))
        phrases = tuple(word for word, _ in known)
        yield Term(_weight(token), words=known, phrases=phrases, said=token)


def _weight(token: str) -> float:
    """How much a word counts beside the others that were said."""
    if len(token) == 1:
        return DIGIT
    return NUMBER if token.isdigit() and len(token) > 2 else 1.0


def _size(part: Part, key: str) -> str:
    """The size of a thread, by which heads are named: `M8` of M8x1.25, `1/4` of 1/4-20-UNC."""
    return thread_name(key).size if part.kind in {"thread", "length"} else ""


def _ids(store: sqlite3.Connection, part: Part) -> list[str]:
    """Ids that a designation may stand for, the likeliest first; only those that are held."""
    if part.kind == "thread":
        keys = [part.key, *(f"#{n} AB" for n, st in NUMBERED.items() if part.key == f"ST{st}")]
        return [f"thread:{row.id}" for key in keys for row in threads(store, key)]
    if part.kind == "drive":
        system, _, size = part.key.partition("-")
        other = {"hex": "AF", "AF": "hex"}.get(system)
        return _held(store, [f"drive:{part.key}"]) or _held(store, [f"drive:{other}-{size}"])
    if part.kind == "grade":
        classes = [f"grade:{part.key}-{strength}" for strength in (70, 50, 80)]
        return _held(store, [f"grade:{part.key}"]) or _held(store, classes)
    if part.kind == "length":
        found = [f"drive:{system}-{part.key}" for system in ("AF", "hex")]
        if part.key.endswith("in"):
            rows = threads(store, part.key.removesuffix("in"))
            return [f"thread:{row.id}" for row in rows] + _held(store, found)
        rows = threads(store, f"M{part.key.removesuffix('mm')}")
        return _held(store, found) + [f"thread:{row.id}" for row in rows]
    return []


def _of_system(store: sqlite3.Connection, part: Part, parts: Iterable[Part]) -> list[str]:
    """Drives of the form that was said whose size stands anywhere in the line."""
    said = [other.key.removesuffix("mm") for other in parts if other.kind in {"word", "length"}]
    numbers = [word for word in (COUNTED.get(word, word) for word in said) if word.isdigit()]
    if part.kind != "system" or part.key in HEXAGONS or not numbers:
        return []
    sizes = [f"{before}{n}" for n in numbers for before in SIZES_BEFORE]
    sizes += [f"{n} mm" for n in numbers]
    sql = f"SELECT id FROM drive WHERE system = ? AND size IN ({', '.join('?' * len(sizes))})"
    return [f"drive:{id_}" for (id_,) in query(store, sql, (part.key, *sizes))]


def _numbered(store: sqlite3.Connection, parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """The parts with a number, read as a screw's, that is one of the form of drive beside it."""
    systems = [part for part in parts if part.kind == "system"]
    for n, part in enumerate(parts):
        if systems and part.kind == "thread" and re.fullmatch(r"#\d+", part.key):
            word = Part("word", part.key[1:], part.text)
            if any(_of_system(store, system, [word]) for system in systems):
                return (*parts[:n], word, *parts[n + 1 :])
    return parts


def _pitched(store: sqlite3.Connection, parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """The parts with a pitch that stands apart from its thread, `m25 gland 1.5`, put to it."""
    for n, part in enumerate(parts):
        for other in parts:
            size = part.key.removesuffix(f"x{other.key}")
            apart = other.kind == "word" and re.fullmatch(PITCH, other.key)
            if part.kind == "thread" and apart and threads(store, f"{size}x{other.key}"):
                whole = part._replace(key=f"{size}x{other.key}")
                return tuple(p for p in (*parts[:n], whole, *parts[n + 1 :]) if p is not other)
    return parts


def _meant(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """The parts less a designation that is denied, `not M8`, where something else was said."""
    denied_ = [b for a, b in pairwise(parts) if a.key in DENYING and b.kind != "word"]
    said = [part for part in parts if part not in denied_ and part.key not in DENYING | EMPTY_WORDS]
    return tuple(said) if denied_ and said else parts


def _held(store: sqlite3.Connection, ids: Sequence[str]) -> list[str]:
    return [entry.id for entry in entries(store, ids)]


def _candidates(
    terms: Sequence[Term], called: Sequence[str], names: Mapping[str, Sequence[str]]
) -> list[str]:
    """Ids that need no index: what the line or a part of it is called, each."""
    single = [i for term in terms for i in term.ids[:6]]
    longest = sorted(names, key=lambda name: (-len(name), name))
    heard_ = [i for name in longest for i in names[name][:3]][:POOL]
    return list(dict.fromkeys([*called, *single, *heard_]))


def _aliases(
    store: sqlite3.Connection, pool: Iterable[str], asked: Collection[str]
) -> dict[str, list[str]]:
    """Other names of the entries that are scored, those of which half or more was said."""
    singular = {word.removesuffix("s") for word in asked}
    heard_ = frozenset((*asked, *singular))
    ids = sorted(pool)
    marks = ", ".join("?" * len(ids))
    found: dict[str, list[str]] = {}
    for entry, words in query(
        store, f"SELECT entry, words FROM alias WHERE entry IN ({marks})", tuple(ids)
    ):
        said = words.translate(APART).split()
        if 2 * sum(map(heard_.__contains__, said)) >= len(said):
            found.setdefault(entry, []).append(words)
    return found


def _nearest_of(store: sqlite3.Connection, kinds: Sequence[str], key: str) -> tuple[str, ...]:
    """Three ids of some kinds whose keys are nearest to one."""
    from fastkit.reference.lookup import nearest

    marks = ", ".join("?" * len(kinds))
    rows = query(
        store, f"SELECT id FROM entry WHERE kind IN ({marks}) ORDER BY rowid", tuple(kinds)
    )
    ids = {id_.partition(":")[2]: id_ for (id_,) in rows}
    return tuple(ids[near] for near in nearest(key, ids))


def _nearest(
    store: sqlite3.Connection, parts: Sequence[Part], kind: str | None, typed: str
) -> tuple[str, ...]:
    """Three ids near to what was asked for and not found."""
    named = [part for part in parts if part.kind in {"thread", "drive", "grade"}]
    if named and kind in {None, named[0].kind}:
        return _nearest_of(store, (named[0].kind,), named[0].key)
    found: dict[str, None] = {}
    for token in [token for part in parts for token in cut(part.key)][:MOST_WORDS]:
        for word, _ in misspelt(store, token, 0.0):
            best = match(store, f'"{word}"', kind, "rowid", 1)
            found |= dict.fromkeys(entry.id for entry in best)
    kinds = [one for one in WRITTEN if kind in {None, one}]
    if len(found) < 3 and kinds:
        found |= dict.fromkeys(_nearest_of(store, kinds, parts[0].key if parts else typed))
    return tuple(found)[:3]
