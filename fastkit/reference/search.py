"""
Anything by a few words: designations are read first, then names are matched.

A hit's score says two things in per cent: how much of what was asked the entry holds (85), and
how much of the entry's own name was said (15). Spelling is forgiven in names only, never in a
designation: a word that the file does not know is compared with the distinct words it knows, so
the cost grows with the language, not with the rows.
"""

import re
import sqlite3
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from fastkit.notation.designation import Part, parse, thread_name
from fastkit.notation.entry import PROMINENT, entry_id, split_id
from fastkit.reference.aliases import closed_up, readable, spoken, written
from fastkit.reference.heard import heard
from fastkit.reference.said import EMPTY_WORDS, IDLE_WORDS, OF_THREADS, by_other_name, weighed
from fastkit.reference.spelling import cut, forms, mended, misspelt, parted
from fastkit.reference.store import query
from fastkit.reference.threads import threads

LONGEST, MOST_WORDS = 300, 16  # letters and words of a query that are looked at
HELD, NAMED = 85.0, 15.0  # shares of a score, per cent
DIGIT = 0.3  # weight of a lone digit or letter
NUMBER = 2.0  # weight of a number as standards and materials have it, three digits or more
UNKNOWN = 0.4  # weight of a word that the file does not know
DESIGNATION = 2.0  # weight of a designation against a word's 1
MEASURED = 0.9  # worth of a length that stands in an entry's name
KIND_SAID = 0.3  # share of its name that an entry's kind is, beside a designation
BESIDE = 0.8  # worth of a number that stands in an entry's title only, not in its names
FAINT = 0.5  # weight of a figure in what is said of an entry that has no size
ANOTHER = 0.8  # worth of a tube's other name where a thread was read
MATERIAL = 0.8  # worth of a grade's word in an entry that is not that grade
WEAKEST = 30.0  # a hit below this score is none
SOURCE = 0.9  # a published source is seldom what is meant
COMMON = 200  # entries; a word in more of them than this is not looked for by itself
POOL = 60  # entries that are scored
ONE_LEFT_OUT = 6  # terms; of so many, all but one are looked for too
THREADED = frozenset(("broken", "insert", "structural", "prevailing", "nut-torque"))
OF_BOLTS = OF_THREADS | {"bolt", "bolts", "screw", "screws", "nut", "nuts", "thread", "threads"}
UNSIZED = frozenset(("method", "seizure", "hazard", "neighbour"))  # a size says little of them
SIZED = frozenset(("head", "washer", "hardware"))  # kinds whose keys end in a thread's size


LOOSE = re.compile(r"mm$|in$|^[\d.]+$|^[A-Z]\w*-\d+$")  # lengths and grades
LENGTH = re.compile(r"(\d)(mm|in)$")


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


class Term(NamedTuple):
    """One thing asked for: the ids it may stand for, or the words it may be written with."""

    weight: float
    ids: tuple[str, ...] = ()  # best first
    words: tuple[tuple[str, float], ...] = ()  # word as the file has it, what the match is worth
    phrases: tuple[str, ...] = ()  # how it is found in the index
    size_worth: float = 1.0  # of an entry that shares a thread's size only
    length: str = ""  # `13mm`, `1/2in`, `10.9`: what was read, as it may stand in a title


class Entry(NamedTuple):
    """An entry with the words in it; `place` is its rank among those that fit as well."""

    id: str
    kind: str
    title: str
    place: int
    words: frozenset[str]
    names: frozenset[str]  # those of its key and its other names


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
        exact = _entries(store, [":".join(whole)])
        if exact:
            return Found(f"entry {exact[0].id}", (_hit(exact[0], 100.0),))
    if text.isascii() and text.isdigit():
        text += " mm"
    if kind is None and text.lower().removesuffix("s") in PROMINENT:
        return _all_of(store, text.lower().removesuffix("s"), limit)
    typed = text.lower()
    text = heard(mended(store, parted(store, written(store, closed_up(store, text)))))
    core = " ".join(word for word in text.lower().split() if word.strip("?!.,") not in EMPTY_WORDS)
    names = spoken(store, core) | spoken(store, text)
    if typed != text:
        names = spoken(store, typed) | names
    parts = parse(text, {alias: ids[0] for alias, ids in names.items()})
    slug = "-".join(cut(text))
    whole_ = (names.get(line) for line in (text, typed, core.strip("?!.")))
    called = (
        *_held(store, [entry_id(k, slug) for k in PROMINENT]),
        *next((ids for ids in whole_ if ids), ()),
    )
    terms = [*_terms(store, parts, names)]
    likely = _candidates(terms, called, names)
    threaded = [i.partition(":")[2] for term in terms for i in term.ids if i[:7] == "thread:"]
    beside = [f"{kind_}:{key}" for kind_ in THREADED for key in threaded[:4]]
    pool = {entry.id: entry for entry in _entries(store, [*likely, *beside])}
    pool |= {entry.id: entry for entry in _indexed(store, terms, kind)}
    asked = {*text.split(), *cut(text), *(word for term in terms for word, _ in term.words)}
    aliases = _aliases(store, pool, asked)
    said = (weighed(text), weighed(text, FAINT))
    scored = [
        _hit(entry, _score(entry, terms, called, aliases.get(entry.id, ()), said))
        for entry in pool.values()
        if kind in {None, entry.kind}
    ]
    order = {id_: n for n, id_ in enumerate(likely)}
    hits = sorted(
        (hit for hit in scored if hit.score >= WEAKEST),
        key=lambda hit: (-hit.score, order.get(hit.id, len(order)), pool[hit.id].place),
    )
    read_as = ", ".join(_said(part) for part in parts)
    return Found(read_as, tuple(hits[:limit]), () if hits else _nearest(store, parts, kind))


def _all_of(store: sqlite3.Connection, kind: str, limit: int) -> Found:
    """The entries of a kind, where its name is all that was said."""
    sql = "SELECT id, kind, title FROM entry WHERE kind = ? ORDER BY rowid LIMIT ?"
    rows = query(store, sql, (kind, limit))
    return Found(f"every {kind}", tuple(Hit(id_, kind, title, HELD) for id_, kind, title in rows))


def _said(part: Part) -> str:
    return part.key if part.kind == "word" else f"{part.kind} {part.key}"


def _hit(entry: Entry, score: float) -> Hit:
    return Hit(entry.id, entry.kind, entry.title, round(score, 1))


def _terms(
    store: sqlite3.Connection, parts: Iterable[Part], names: Mapping[str, Sequence[str]]
) -> Iterator[Term]:
    """What is asked for, part by part; words that ask for nothing left out."""
    tokens: list[str] = []
    materials = {ids[0].lower(): alias for alias, ids in names.items() if ids[0][:6] == "grade:"}
    named, threaded = False, any(part.kind == "thread" for part in parts)
    hole = any(part.kind == "word" and part.key in OF_BOLTS for part in parts)
    for part in parts:
        ids = _ids(store, part)
        if hole and part.kind == "length" and part.key.endswith("in"):
            ids = [id_ for id_ in ids if id_.startswith("thread:")] or ids
        named |= bool(ids)
        if ids:
            keys = [id_.partition(":")[2] for id_ in ids]
            held = dict.fromkeys(phrase for key in keys for phrase in (key, _size(part, key)))
            phrases = tuple(phrase for phrase in held if phrase)
            worth = 1.0 if part.kind != "thread" or thread_name(part.key).pitch is None else 0.6
            # "stainless" is a class of bolts, and a word of what else is made of it
            spelt = [word for word in cut(materials.get(part.text, "")) if word not in IDLE_WORDS]
            words = tuple((word, MATERIAL) for word in spelt)
            phrases += tuple(word for word, _ in words)
            length = part.key
            phrases += (length, LENGTH.sub(r"\1 \2", length))
            weight = 1.0 if spelt else DESIGNATION
            yield Term(weight, tuple(ids), words, phrases, worth, length)
        elif part.kind in {"thread", "drive", "grade"}:
            yield Term(DESIGNATION)
        else:
            tokens += cut(part.key)
    idle = EMPTY_WORDS | IDLE_WORDS if named else EMPTY_WORDS
    idle |= OF_THREADS if threaded else frozenset()
    asked = [token for token in dict.fromkeys(tokens) if token not in idle]
    for token in asked[:MOST_WORDS]:
        known = tuple(forms(store, token))
        yield Term(_weight(token, known), words=known, phrases=tuple(word for word, _ in known))


def _weight(token: str, known: Sequence[tuple[str, float]]) -> float:
    """How much a word counts beside the others that were said."""
    if len(token) == 1:
        return DIGIT
    if not known:
        return UNKNOWN
    return NUMBER if token.isdigit() and len(token) > 2 else 1.0


def _size(part: Part, key: str) -> str:
    """The size of a thread, by which heads are named: `M8` of M8x1.25, `1/4` of 1/4-20-UNC."""
    return thread_name(key).size if part.kind in {"thread", "length"} else ""


def _ids(store: sqlite3.Connection, part: Part) -> list[str]:
    """Ids that a designation may stand for, the likeliest first; only those that are held."""
    if part.kind == "thread":
        return [f"thread:{row.id}" for row in threads(store, part.key)]
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


def _held(store: sqlite3.Connection, ids: Sequence[str]) -> list[str]:
    return [entry.id for entry in _entries(store, ids)]


def _candidates(
    terms: Sequence[Term], called: Sequence[str], names: Mapping[str, Sequence[str]]
) -> list[str]:
    """Ids that need no index: what the line or a part of it is called, torques, each."""
    pieces = [[i.partition(":")[2] for i in term.ids] for term in terms if term.ids]
    threads_, grades = (
        [i.partition(":")[2] for term in terms for i in term.ids if i.startswith(f"{kind}:")]
        for kind in ("thread", "grade")
    )
    joined = [f"torque:{thread}@{grade}" for thread in threads_[:4] for grade in grades[:4]]
    single = [i for term in terms for i in term.ids[:6]] if pieces else []
    longest = sorted(names, key=lambda name: (-len(name), name))
    heard_ = [i for name in longest for i in names[name][:3]][:POOL]
    return list(dict.fromkeys([*called, *joined, *single, *heard_]))


def _entries(store: sqlite3.Connection, ids: Sequence[str]) -> list[Entry]:
    """Entries of those ids that are held, in the order asked for."""
    marks = ", ".join("?" * len(ids))
    sql = "SELECT id, entry.kind, entry.title, entry.rowid, words FROM entry"
    sql += f" JOIN search ON search.rowid = entry.rowid WHERE id IN ({marks})"
    held = {row[0]: row for row in query(store, sql, tuple(ids))}
    return [_entry(*held[id_]) for id_ in ids if id_ in held]


def _entry(id_: str, kind: str, title: str, place: int, words: str = "") -> Entry:
    key = id_.partition(":")[2]
    names = frozenset(cut(f"{key} {words}"))
    return Entry(id_, kind, title, place, names.union(cut(f"{kind} {title}")), names)


def _indexed(store: sqlite3.Connection, terms: Sequence[Term], kind: str | None) -> list[Entry]:
    """Entries of the index that hold every term; where few do, those that hold a telling one."""
    weights = {group: term.weight for term in terms if (group := _group(term.phrases))}
    groups = list(weights)
    if not groups:
        return []
    found = _match(store, " AND ".join(groups), kind, "rowid")
    if len(found) < 3:
        if 2 < len(groups) <= ONE_LEFT_OUT:
            for left_out in groups:
                rest = [group for group in groups if group != left_out]
                found += _match(store, " AND ".join(rest), kind, "rowid")
        telling = {group: n for group in groups if (n := _count(store, group)) <= COMMON}
        if telling:
            found += _match(store, " OR ".join(telling), kind, "rank, rowid")
            strongest = max(telling, key=lambda group: (weights[group], -telling[group]))
            found += _match(store, strongest, kind, "rank, rowid")
    return found


def _group(phrases: Iterable[str]) -> str:
    """The phrases as one bracket of the index's language, every word of them quoted."""
    quoted = [f'"{" ".join(words)}"' for phrase in phrases if (words := cut(phrase))]
    return f"({' OR '.join(quoted)})" if quoted else ""


def _match(store: sqlite3.Connection, wanted: str, kind: str | None, order: str) -> list[Entry]:
    """Entries that the index finds, in an order; by `rowid` it stops at the first that suffice."""
    sql = "SELECT entry, kind, title, rowid, words FROM search WHERE search MATCH ?"
    sql += " AND kind = ?" if kind else ""
    values = (wanted, kind) if kind else (wanted,)
    rows = query(store, f"{sql} ORDER BY {order} LIMIT {POOL}", values)
    return [_entry(*row) for row in rows]


def _count(store: sqlite3.Connection, group: str) -> int:
    sql = f"SELECT count(*) FROM (SELECT 1 FROM search WHERE search MATCH ? LIMIT {COMMON + 1})"
    return int(query(store, sql, (group,))[0][0])


def _aliases(
    store: sqlite3.Connection, pool: Iterable[str], asked: Collection[str]
) -> dict[str, list[str]]:
    """Other names of the entries that are scored, those that hold a word of what was asked."""
    singular = {word.removesuffix("s") for word in asked}
    heard_ = frozenset((*asked, *singular))
    ids = sorted(pool)
    marks = ", ".join("?" * len(ids))
    found: dict[str, list[str]] = {}
    for entry, words in query(
        store, f"SELECT entry, words FROM alias WHERE entry IN ({marks})", tuple(ids)
    ):
        if not heard_.isdisjoint(words.replace("-", " ").split()):
            found.setdefault(entry, []).append(words)
    return found


def _score(
    entry: Entry,
    terms: Sequence[Term],
    called: Sequence[str],
    aliases: Sequence[str],
    said: Sequence[Mapping[str, float]],
) -> float:
    """How much of what was asked the entry holds, and how much of its name was said."""
    if entry.id in called:
        return 100.0
    threads_ = [term.ids for term in terms if term.ids and term.ids[0].startswith("thread:")]
    other = entry.kind in THREADED and threads_ and not any(_held_by(entry, t) for t in terms if t.ids in threads_)
    named = 0.0 if other else by_other_name(aliases, said[entry.kind in UNSIZED])
    if threads_ and entry.kind == "tube":
        named *= ANOTHER
    asked = sum(term.weight for term in terms)
    held = sum(term.weight * _held_by(entry, term) for term in terms)
    if not asked or not held:
        return named
    score = HELD * held / asked + NAMED * _named(entry, terms, aliases)
    score = max(score, min(named + score / 100, 100.0))
    return score * (SOURCE if entry.kind == "source" else 1.0)


def _held_by(entry: Entry, term: Term) -> float:
    """What the match of one term with an entry is worth, 0 to 1."""
    if term.ids:
        if entry.id in term.ids:
            return 1.0 - 0.02 * term.ids.index(entry.id)
        key = entry.id.partition(":")[2]
        pieces = set(key.split("@")) if entry.kind == "torque" else {key}
        keys = [id_.partition(":")[2] for id_ in term.ids]
        best = [n for n, k in enumerate(keys) if k in pieces]
        if best:
            return 1.0 - 0.02 * min(best)
        sizes = (*term.phrases, LENGTH.sub(r"\1", term.length))
        by_size = entry.kind in SIZED and any(key.endswith(f"-{size}") for size in sizes)
        if by_size:
            return term.size_worth
        titled = entry.kind != "source" if LOOSE.search(term.length) else entry.kind == "tube"
        if titled and _measures(entry, term.length):
            return MEASURED
    held = (
        worth * (BESIDE if word.isdigit() and word not in entry.names else 1.0)
        for word, worth in term.words
        if word in entry.words
    )
    return max(held, default=0.0)


def _measures(entry: Entry, length: str) -> bool:
    """Whether the length stands in the entry's own key or title, not as a part of a longer one."""
    spaced = LENGTH.sub(r"\1 ?\2", re.escape(length))
    pattern = rf"(?<![\d/.])(?<!\d-){spaced}(?![a-z])"
    return bool(re.search(pattern, f"{entry.id} {entry.title}"))


def _named(entry: Entry, terms: Sequence[Term], aliases: Sequence[str]) -> float:
    """Share of the entry's name that was said: of its key, its title or its best other name."""
    if any(entry.id in term.ids for term in terms):
        return 1.0
    if any(term.ids for term in terms):
        said_kind = any(word == entry.kind for term in terms for word, _ in term.words)
        return KIND_SAID if said_kind else 0.0
    said = {word: worth for term in terms for word, worth in reversed(term.words)}
    shares = [0.0]
    for name in (entry.id.partition(":")[2], entry.title, *aliases):
        words = [word for word in cut(name) if word not in EMPTY_WORDS]
        if words:
            shares.append(sum(said.get(word, 0.0) for word in words) / len(words))
    return max(shares)


def _nearest(store: sqlite3.Connection, parts: Sequence[Part], kind: str | None) -> tuple[str, ...]:
    """Three ids near to what was asked for and not found."""
    from fastkit.reference.lookup import nearest

    named = [part for part in parts if part.kind in {"thread", "drive", "grade"}]
    if named and kind in {None, named[0].kind}:
        sql = "SELECT id FROM entry WHERE kind = ? ORDER BY rowid"
        keys = [row[0].partition(":")[2] for row in query(store, sql, (named[0].kind,))]
        return tuple(f"{named[0].kind}:{key}" for key in nearest(named[0].key, keys))
    found: dict[str, None] = {}
    for token in (token for part in parts for token in cut(part.key)[:MOST_WORDS]):
        for word, _ in misspelt(store, token, 0.0):
            found |= dict.fromkeys(
                entry.id for entry in _match(store, f'"{word}"', kind, "rowid")[:1]
            )
    return tuple(found)[:3]
