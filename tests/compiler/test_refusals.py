"""The compiler names every wrong cell: file, line, column, value and what was expected."""

from pathlib import Path

import pytest

from fastkit.compiler.__main__ import main
from fastkit.compiler.build import compile_database
from fastkit.compiler.reading import BadData
from fastkit.errors import Broken
from tests.compiler.small import spoil, write_small

# file, what stands there, what a slip makes of it, the message
SLIPS = [
    (
        *("tap_drills.csv", "6.8", '"6,8"'),
        "tap_drills.csv:2: drill_mm: '6,8': expected a number with a decimal point, no comma",
    ),
    (
        *("tap_drills.csv", "6.8", "6.8 mm"),
        "tap_drills.csv:2: drill_mm: '6.8 mm': expected a bare number: "
        "the unit stands in the column's name",
    ),
    (
        *("tap_drills.csv", "6.8", "about 7"),
        "tap_drills.csv:2: drill_mm: 'about 7': expected a number",
    ),
    (  # digits of another script, which Python would read
        *("tap_drills.csv", "6.8", "\u0666.\u0668"),
        "tap_drills.csv:2: drill_mm: '\\u0666.\\u0668': expected a number",
    ),
    (  # inches in a column of millimetres
        *("tap_drills.csv", "6.8", "0.2677"),
        "tap_drills.csv:2: drill_mm: '0.2677': expected 0.7 to 1 times the 8 mm of M8x1.25",
    ),
    (  # millimetres where the size is in inches
        *("clearance_holes.csv", "8.4,9,10", "0.331,9,10"),
        "clearance_holes.csv:2: close_mm: '0.331': expected 1 to 1.2 times the 8 mm of M8",
    ),
    (  # two columns in each other's place
        *("clearance_holes.csv", "8.4,9,10", "9,8.4,10"),
        "clearance_holes.csv:2: medium_mm: '8.4': expected a number of at least close_mm, 9",
    ),
    (
        *("friction.csv", "0.08,0.12,0.16", "0.16,0.12,0.08"),
        "friction.csv:2: mu_mid: '0.12': expected a number of at least mu_min, 0.16",
    ),
    ("tap_drills.csv", "6.8", "nan", "tap_drills.csv:2: drill_mm: 'nan': expected a number"),
    (
        *("tap_drills.csv", "6.8", "1e999"),
        "tap_drills.csv:2: drill_mm: '1e999': expected a finite number",
    ),
    ("tap_drills.csv", "6.8", "", "tap_drills.csv:2: drill_mm: '': expected a number, not empty"),
    ("tap_drills.csv", "6.8", "0", "tap_drills.csv:2: drill_mm: '0': expected a number above 0"),
    (
        *("tap_drills.csv", "M8x1.25", "M8x1.2"),
        "tap_drills.csv:2: thread: 'M8x1.2': expected an existing thread id",
    ),
    (
        *("clearance_holes.csv", "M8", "M9"),
        "clearance_holes.csv:2: size: 'M9': expected an existing thread size",
    ),
    (
        *("aliases.csv", "drive:AF-13mm", "drive:AF-14mm"),
        "aliases.csv:2: entry: 'drive:AF-14mm': expected an existing entry id",
    ),
    (
        *("grades.csv", "book", "brook"),
        "grades.csv:2: source: 'brook': expected an existing source id",
    ),
    (
        *("grades.csv", "copied", "guessed"),
        "grades.csv:2: checked: 'guessed': expected one of formula, outside, copied, memory, "
        "judgement",
    ),
    (
        *("grades.csv", "copied", "judgement"),
        "grades.csv:2: checked: 'judgement': expected judgement with the source practice, "
        "and with no other",
    ),
    (
        *("aliases.csv", "judgement", "memory"),
        "aliases.csv:2: checked: 'memory': expected judgement with the source practice, "
        "and with no other",
    ),
    (
        *("grades.csv", "bolt", "blot"),
        "grades.csv:2: product: 'blot': expected one of bolt, nut, set-screw",
    ),
    (
        *("grades.csv", "8.8,ISO", " 8.8,ISO"),
        "grades.csv:2: id: ' 8.8': expected text on one line without outer blanks",
    ),
    (
        *("drive_systems.csv", ",1,60", ",2,60"),
        "drive_systems.csv:2: external: '2': expected one of 0, 1",
    ),
    (
        *("drive_systems.csv", ",1,60", ",1.0,60"),
        "drive_systems.csv:2: external: '1.0': expected a whole number",
    ),
    (
        *("drive_systems.csv", ",1,60", ",1,400"),
        "drive_systems.csv:2: symmetry_deg: '400': expected a number of at most 360",
    ),
    (
        *("friction.csv", "mu_mid,", ""),
        "friction.csv:1: mu_mid: '': expected this column",
    ),
    (
        *("friction.csv", "mu_mid,", "mu_mid,mu_min,"),
        "friction.csv:1: mu_min: 'mu_min': expected each column once",
    ),
    (
        *("friction.csv", "Oiled", "Oiled,wet"),
        "friction.csv:2: -: 'class-b,Oiled,wet,0.08,0.12,0.16,book,p. 1,copied': "
        "expected 8 cells, found 9",
    ),
    (
        *("friction.csv", "Oiled", '"Oiled" '),
        "friction.csv:2: -: '',' expected after '\"'': expected well-formed CSV",
    ),
    (
        *("friction.csv", "Oiled", "Oi\u202eled"),
        "friction.csv:2: -: '\\u202e': expected printable text, lines ended by a newline",
    ),
    (
        *("threads.csv", ",8,,1.25", ",8,0.315,1.25"),
        "threads.csv:2: nominal_mm: '8': expected a number here or in nominal_in, "
        "and not in both",
    ),
    (
        *("threads.csv", ",8,,1.25", ",8,,"),
        "threads.csv:2: pitch_mm: '': expected a number here or in tpi, and not in both",
    ),
    (
        *("threads.csv", ",8,,1.25", ",8,,12.5"),
        "threads.csv:2: nominal_mm: '8': expected more than twice the pitch 12.5",
    ),
    (  # inches in the column of millimetres
        *("threads.csv", ",,0.25,,", ",0.25,,,"),
        "threads.csv:3: nominal_mm: '0.25': expected more than twice the pitch 1.27",
    ),
    (
        *("sources.toml", 'kind = "handbook"', 'kind = "hearsay"'),
        "sources.toml:7: kind: 'hearsay': expected one of standard, handbook, open-library, "
        "regulation, paper, practice",
    ),
    (
        *("sources.toml", 'edition = "1st"\n', ""),
        "sources.toml:3: edition: '': expected text: the key is missing",
    ),
    ("sources.toml", '"1st"', "1", "sources.toml:6: edition: '1': expected text"),
    (
        *("sources.toml", "edition = \"1st\"", 'editoin = "1st"\nedition = "1st"'),
        "sources.toml:6: editoin: 'editoin': expected one of the keys id, title, edition, kind",
    ),
    (
        *("sources.toml", "A comment above", "\n[more]\n# A"),
        "sources.toml:2: more: 'more': expected only [[source]]",
    ),
]  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A sound small data folder."""
    return write_small(tmp_path / "data")


def faults(folder: Path) -> list[str]:
    """The messages with which the folder is refused."""
    with pytest.raises(BadData) as refusal:
        compile_database(folder, folder.parent / "out.db")
    return [str(fault) for fault in refusal.value.faults]


@pytest.mark.parametrize(("file", "old", "new", "message"), SLIPS)
def test_one_slip_is_named(folder: Path, file: str, old: str, new: str, message: str) -> None:
    """Each kind of slip is refused with exactly one line, in the fixed form."""
    spoil(folder, file, old, new)
    assert [message] == faults(folder)


def test_an_unknown_column_is_named(folder: Path) -> None:
    """A column that no record has is refused, with the ones that would do."""
    path = folder / "friction.csv"
    lines = path.read_text("utf-8").splitlines()
    path.write_text(f"{lines[0]},colour\n{lines[1]},red\n", "utf-8")
    [message] = faults(folder)
    assert message.startswith("friction.csv:1: colour: 'colour': expected one of the columns id, ")


def test_a_duplicate_names_the_first(folder: Path) -> None:
    """The second row with the same key is refused and points at the first."""
    path = folder / "friction.csv"
    lines = path.read_text("utf-8").splitlines()
    path.write_text("\n".join([*lines, lines[1], ""]), "utf-8")
    assert [
        "friction.csv:3: id: 'class-b': expected each key once; it also stands in line 2"
    ] == faults(folder)


def test_an_entry_of_two_files_names_both(folder: Path) -> None:
    """Two files may not give the same entry; the second is refused and points at the first."""
    for file, row in (
        ("materials.csv", "steel,Steel,,,,,0,book,p. 1,copied"),
        ("stuffs.csv", "steel,Steel again,steel,book,p. 1,copied"),
    ):
        path = folder / file
        path.write_text(path.read_text("utf-8").splitlines()[0] + f"\n{row}\n", "utf-8")
    assert [
        "stuffs.csv:2: id: 'material:steel': "
        "expected each entry id once; it also stands in materials.csv:2"
    ] == faults(folder)


def test_another_encoding_is_named(folder: Path) -> None:
    """A byte that is not UTF-8 is refused with its line."""
    path = folder / "friction.csv"
    path.write_bytes(path.read_bytes().replace(b"Oiled", "Geölt".encode("latin-1")))
    assert ["friction.csv:2: -: '0xf6': expected UTF-8 text"] == faults(folder)


def test_broken_toml_is_named_with_its_line(folder: Path) -> None:
    """TOML that does not parse is refused with the line the parser gives."""
    spoil(folder, "sources.toml", 'title = "A book"', "title = A book")
    [message] = faults(folder)
    assert message.startswith("sources.toml:5: -: '")
    assert message.endswith("expected well-formed TOML")


def test_a_missing_file_is_named(folder: Path) -> None:
    """Every file is needed."""
    (folder / "friction.csv").unlink()
    assert ["friction.csv:0: -: '': expected the file to exist"] == faults(folder)


def test_all_faults_are_told_at_once(folder: Path) -> None:
    """Several slips in several files come in one refusal, in the order of files and lines."""
    spoil(folder, "threads.csv", ",8,,1.25", ',"8,0",,1.25 mm')
    spoil(folder, "grades.csv", "bolt", "blot")
    spoil(folder, "friction.csv", "0.16", "1.6")
    told = faults(folder)
    assert ["friction.csv", "grades.csv", "threads.csv", "threads.csv"] == sorted(
        line.split(":")[0] for line in told
    )
    assert "friction.csv:2: mu_max: '1.6': expected a number of at most 1" in told


def test_a_method_text_must_be_a_list(folder: Path) -> None:
    """Steps, cautions and hazards are lists of texts."""
    (folder / "methods.toml").write_text('[[method]]\nid = "a"\nsteps = "one"\n', "utf-8")
    assert "methods.toml:3: steps: 'one': expected a list of texts" in faults(folder)


def test_a_refusal_leaves_the_old_file(folder: Path) -> None:
    """A failed compile neither touches the earlier database nor leaves anything behind."""
    out = folder.parent / "out.db"
    compile_database(folder, out)
    before = out.read_bytes()
    spoil(folder, "tap_drills.csv", "6.8", "6,8")
    faults(folder)
    assert before == out.read_bytes()
    assert ["data", "out.db"] == sorted(
        path.name for path in folder.parent.iterdir() if path.name != "home"
    )


def test_the_command_prints_faults_and_exits_3(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """`python -m fastkit.compiler` tells the faults on standard error, one a line."""
    spoil(folder, "tap_drills.csv", "6.8", "0")
    assert 3 == main([str(folder), str(folder.parent / "out.db")])
    out, err = capsys.readouterr()
    assert "" == out
    assert "tap_drills.csv:2: drill_mm: '0': expected a number above 0\n" == err


def test_the_command_prints_one_summary_line(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A sound folder gives one line with the number of rows and the data version."""
    assert 0 == main([str(folder), str(folder.parent / "out.db")])
    out, err = capsys.readouterr()
    assert 1 == out.count("\n")
    assert "rows, data version" in out
    assert "" == err


def test_more_than_two_arguments_are_misuse(capsys: pytest.CaptureFixture[str]) -> None:
    """The command takes a folder and a file, no more."""
    assert 2 == main(["a", "b", "c"])
    assert capsys.readouterr().err


def test_no_folder_is_broken(tmp_path: Path) -> None:
    """A data folder that is not there is named."""
    with pytest.raises(Broken, match="expected the folder of data files"):
        compile_database(tmp_path / "nowhere", tmp_path / "out.db")


def test_a_file_that_cannot_be_written_is_broken(folder: Path) -> None:
    """A target inside a folder that does not exist is refused without a traceback of SQLite."""
    with pytest.raises(Broken, match="cannot be written"):
        compile_database(folder, folder.parent / "nowhere" / "out.db")
