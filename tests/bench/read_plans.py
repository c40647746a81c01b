"""
Random emergencies as a hurried person types them, each with the screen it gets, to be read.

Run by hand: `python tests/bench/read_plans.py [COUNT [SEED [COLUMNS]]]`. The same seed makes the
same sentences. A mechanic reads what is printed: is anything dangerous, is the first move right?
"""

import sys
from random import Random

from fastkit.answers.extract import extract
from fastkit.cli.extract_screen import screen
from fastkit.errors import FastkitError
from fastkit.reference.store import connect

WORDS, COUNT, SEED, COLUMNS = "=", 100, 1, 80
RECESSES = (
    *("M3 2 mm allen", "M4 torx T20", "M5 PH2", "M6 5 mm hex socket", "M6 T30", "M8 6mm allen"),
    *("M8 T45", "M10 8 mm hex socket", "#10-32 phillips", "1/4-20 5/32 hex socket", "M5 PZ2"),
    *("1/4-20 slotted screw", "M8 triple square 8", "M4 slotted", "M12 10 mm allen bolt"),
)
HEADS = (
    *("M5 bolt 8 mm head", "M6 bolt 10mm head", "M8 bolt 13 mm head", "M10 17mm bolt"),
    *("M12 19 mm bolt", "3/8-16 bolt 9/16 head", "5/16 bolt", "M16 24 mm bolt", "M14 bolt 21mm"),
    *("M8 flange bolt E10", "1/2-13 bolt", "M20 bolt 30 mm"),
)
NUTS = (
    *("M8 nut 13mm", "M10 nut on a stud, 17 mm", "M6 nut 10 mm", "ball joint nut M12", "3/8 nut"),
    *("wheel nut M12", "exhaust manifold nut M8", "U-bolt nut M14"),
)
TUBES = ("brake line nut 11 mm", "fuel line tube nut 16 mm", "3/8 flare nut", "clutch pipe union")
STUBS = ("M6", "M8 stud", "M10 bolt", "exhaust stud M8", "5/16 bolt", "M12 bolt", "1/4-20 screw")
DAMAGE = {
    "recess": (
        *("rounded out", "cammed out", "stripped", "worn", "just won't turn", "chewed up"),
        *(
            "slips a bit",
            "key broke off in it",
            "bit snapped off inside",
            "just spins",
            "full of dirt",
        ),
    ),
    "head": (
        *("rounded", "head's gone round", "won't budge", "stuck", "corners worn", "spins"),
        *("nut on the other side turns too", "turns but won't come out", "socket slips on it"),
    ),
    "stub": (
        *("snapped flush", "snapped off 8 mm proud", "broken off below the surface"),
        *("sheared off", "broken extractor in it", "snapped, left hand thread, flush"),
    ),
}
SEIZED = (
    *(
        "rusted solid",
        "seized",
        "galled stainless",
        "painted over",
        "red threadlocker",
        "blue threadlock",
    ),
    *("rusted, third of it rusted away", "green threadlocker", "not rusted", "rusty", ""),
)
INTO = (
    *("in alu", "into cast iron", "in steel", "in magnesium casing", "in plastic", "brass", ""),
    *("sheet metal", "aluminium head", "steel bracket", ""),
)
ROOM = (
    *("", "", "25 mm above", "two fingers of room", "can't swing", "lying under it", "60mm above"),
    *("8 mm beside", "in a deep hole 35 mm across 40 deep", "hacksaw won't fit", "90 mm above"),
    *("5 mm beside and 40 above", "30 degrees of swing", "nothing gets in from the side"),
)
NEAR = (
    *("fuel line 50 mm", "rubber boot 8 mm off", "brake hose touching", "battery 200 mm away"),
    *("wiring 15 mm", "airbag 150 mm", "AC line 60mm", "ECU right next to it", "tyre 100 mm"),
    *("bearing 10 mm", "plastic cover touching", "fuel tank 300 mm", "shock absorber 40 mm away"),
    *("painted panel 30 mm", "gas strut touching", "carburettor 20 mm", "coolant hose 5 mm"),
)
STATE = (
    *("car's on a jack", "on stands", "spring loaded", "holds the engine up", "line still charged"),
    *("sprayed it with penetrating oil", "soaked in brake cleaner", "already tried locking pliers"),
    *("tried impact driver", "on the bench", "can reach the back", "blind hole", "weight on it"),
    *(
        "tried heat",
        "wet with releasing oil",
        "brake cleaner all over it",
        "used a breaker bar, nothing",
    ),
)
TOOLS = (
    *("no welder", "no power", "no heat allowed", "only hand tools", "have left hand drill bits"),
    *(
        "got an oscillating tool",
        "no torch no welder",
        "have a rotary tool",
        "air tools",
        "",
        "",
        "",
    ),
)


def sentence(random: Random) -> str:
    """What somebody types of a fastener in some state, somewhere."""
    group = random.choice(("recess", "recess", "head", "head", "nut", "tube", "stub", "stub"))
    things = {"recess": RECESSES, "head": HEADS, "nut": NUTS, "tube": TUBES, "stub": STUBS}
    parts = [
        f"{random.choice(things[group])} {random.choice(DAMAGE.get(group, DAMAGE['head'][:6]))}"
    ]
    parts += [random.choice(SEIZED), random.choice(INTO), random.choice(ROOM)]
    parts += random.sample(NEAR, random.choice((0, 1, 1, 2)))
    parts += random.sample(STATE, random.choice((0, 0, 1, 2)))
    parts.append(random.choice(TOOLS))
    return ", ".join(part for part in parts if part)


def main(count: int, seed: int, columns: int) -> None:
    """Print sentences and screens."""
    random, store = Random(seed), connect()
    for number in range(1, count + 1):
        words = sentence(random)
        print(f"{WORDS * columns}\n{seed}.{number}  {words}")
        try:
            print("\n".join(screen(extract(words, store=store), columns)))
        except FastkitError as refused:
            print(f"REFUSED  {refused}")


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    main(*given, *(COUNT, SEED, COLUMNS)[len(given) :])
