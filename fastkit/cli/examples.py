"""Examples that each command's help ends with; a test runs them all."""

from collections.abc import Mapping

EXAMPLES: Mapping[str, tuple[str, ...]] = {
    "find": ("fastkit find quarter twenty", 'fastkit find "what drill for m6 tap"'),
    "show": ("fastkit show thread:M8x1.25", "fastkit show method:weld-nut"),
    "identify": (
        "fastkit identify thread --major 7.85 --pitch 1.25",
        "fastkit identify thread hole 6.75 18 tpi",
        "fastkit identify drive --across 5.05 --lobes 6",
        'fastkit identify grade "three radial lines"',
    ),
    "torque": (
        "fastkit torque M8 8.8",
        "fastkit torque M8 8.8 --into aluminium --engage 12 --friction oiled",
        "fastkit torque m10 fine 10.9 oiled, into alloy 15 deep, is 50 Nm ok",
        'fastkit torque 3/8-16 SAE-5 --maker "30 lb-ft" --why',
    ),
    "order": (
        "fastkit order 8 circle --torque 24",
        "fastkit order 5 wheel 110 Nm",
        "fastkit order 10 rectangle 5x2 --loosen",
    ),
    "extract": (
        'fastkit extract "m8 hexagon rounded, rusted, 8 mm beside, rubber hose 20 mm off"',
        "fastkit extract t30 stripped --into aluminium --above 55 --no-heat",
        'fastkit extract "m6 snapped flush, seized, aluminium" --tree',
    ),
    "job": ("fastkit job --example",),
    "repair": (
        "fastkit repair M6 --into aluminium --depth 15 --hole stripped --wall 3",
        "fastkit repair m8 alu stripped 20 deep",
    ),
    "replace": (
        'fastkit replace M6 --was "pan head, zinc plated, PH2" --into aluminium --grip 12',
        "fastkit replace rusty m6x16 pan head in the alloy cover",
    ),
    "near": ("fastkit near T20", "fastkit near 13mm rounded"),
    "note": (
        "fastkit note list",
        "fastkit note left hand drill worked, m8 snapped flush, rusted",
        "fastkit note seat-bit worse --drive T30 --damage worn --seized rusted",
        'fastkit note torque "garden pump" "cover bolts" "14 N·m" "manual, page 12"',
    ),
    "tools": ('fastkit tools add ratchet "3/8 in" --above 62', "fastkit tools list"),
    "stock": ("fastkit stock add 12 m6x20 8.8 drawer 3", "fastkit stock list"),
    "cards": ("fastkit cards --list", "fastkit cards --only torque --out torque.pdf"),
    "sources": ("fastkit sources", "fastkit sources --export tables"),
    "check": ("fastkit check", "fastkit check --memory"),
}
ALONE = (
    ("It will not move:", 'fastkit extract "m8 rounded, rusted, 8 mm beside"'),
    ("How tight:", "fastkit torque M8 8.8"),
    ("Anything else:", "fastkit find m8"),
)


def epilog(name: str) -> str | None:
    """Return the examples of a command as the end of its help; None where it has none."""
    lines = EXAMPLES.get(name)
    return "\b\nExamples:\n  " + "\n  ".join(lines) if lines else None
