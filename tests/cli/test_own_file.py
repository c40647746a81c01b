"""note, tools, stock, extract --save and --again, torque --place."""

import errno
import json
import os
import shlex

import pytest
from click.testing import CliRunner

from fastkit.cli import cli
from fastkit.cli.examples import EXAMPLES
from fastkit.shopbook import place

PUMP = "M6 socket screw in aluminium, 5 mm hex socket worn, rusted"


def run(*args, status=0):
    result = CliRunner().invoke(cli, args)
    assert status == result.exit_code, result.output
    if status in (1, 2, 3):
        assert 1 == result.stderr.count("\n")
    return result


def document(*args):
    return json.loads(run(*args, "--json").stdout)


def situation(*args):
    return document("extract", *args)["situation"]


def test_go_on_after_attempts():
    """A kept situation comes back with what was tried since and what became of the recess."""
    run("extract", PUMP, "--beside", "8", "--save", "pump")
    run("note", "better-bit", "worse", "--again", "pump")
    run("note", "soak-penetrant", "ok", "--again", "pump")
    run("note", "grit-paste", "ok", "--again", "pump")
    found = situation("--again", "pump")

    assert ["better-bit", "soak-penetrant"] == found["tried"]
    assert ("stripped", 8.0, "rusted") == (found["damage"], found["beside_mm"], found["seized"])
    assert 4.0 == situation("--again", "pump", "--beside", "4")["beside_mm"]


def test_saved_again_counts_nothing_twice():
    run("extract", PUMP, "--save", "pump")
    run("note", "better-bit", "nothing", "--again", "pump")
    run("extract", "--again", "pump", "--save", "pump")
    run("note", "grit-paste", "nothing", "--again", "pump")

    assert ["better-bit", "grit-paste"] == situation("--again", "pump")["tried"]


def test_a_note_taken_back_was_not_tried():
    run("extract", PUMP, "--save", "pump")
    run("note", "better-bit", "nothing", "--again", "pump")
    run("note", "undo")

    assert [] == situation("--again", "pump")["tried"]


def test_what_broke_is_asked_for():
    """Where a shank parted nobody can guess; a broken extractor says it itself."""
    run("extract", PUMP, "--save", "pump")
    run("note", "better-bit", "broke", "--again", "pump")
    refusal = run("extract", "--again", "pump", status=2)
    run("note", "spiral-extractor", "broke", "--again", "pump", "--damage", "snapped-flush")

    assert "snapped-flush" in refusal.stderr
    assert "extractor-broken" == situation("--again", "pump")["damage"]


def test_nothing_is_kept_of_a_refusal():
    run("extract", PUMP, "--beside", "-3", "--save", "pump", status=2)
    refusal = run("extract", "--again", "pump", status=1)

    assert "nothing is kept as 'pump'" in refusal.stderr
    assert not place.folder().exists()


def test_the_nearest_name_is_offered():
    run("extract", PUMP, "--save", "heating pump")

    assert "heating pump" in run("extract", "--again", "heatin pump", status=1).stderr


def test_makers_torque_stands_first():
    run("note", "torque", "grey tractor", "wheel nuts", "66 lb-ft", "manual, page 12")
    run("note", "torque", "grey tractor", "wheel nuts", "90 N·m", "newer manual")
    run("note", "torque", "grey tractor", "drain plug", "40", "manual")
    result = run("torque", "M14x1.5", "10.9", "--place", "tractor wheel")
    said = document("torque", "M14x1.5", "10.9", "--place", "Wheel Nuts")

    assert result.stdout.startswith("Your note: grey tractor, wheel nuts: 90 N·m, read in newer")
    assert (90.0, "newer manual") == (said["noted"]["torque_nm"], said["noted"]["read_in"])
    assert 90.0 == said["maker"]["torque_nm"]
    assert "drain plug" in run("torque", "M8", "8.8", "--place", "tractor", status=2).stderr
    assert "no maker" in run("torque", "M8", "8.8", "--place", "lorry", status=1).stderr


def test_notes_are_listed_and_taken_back():
    run("note", "better-bit", "ok", "--damage", "worn", "--seized", "rusted")
    run("note", "torque", "pump", "cover", "9 N·m", "plate on it")
    listed = document("note", "list")

    assert [("better-bit", "ok", "worn", "rusted")] == [
        (row["method"], row["outcome"], row["damage"], row["seized"]) for row in listed["attempts"]
    ]
    assert [9.0] == [row["torque_nm"] for row in listed["torques"]]
    assert "pump" == document("note", "undo")["noted"]["machine"]
    assert "better-bit" == document("note", "undo")["noted"]["method"]
    run("note", "undo", status=1)
    assert [] == document("note", "list")["attempts"]


def test_an_attempt_without_a_situation_counts_for_no_odds():
    assert "no odds" in run("note", "better-bit", "ok").stdout


@pytest.mark.parametrize(
    "args",
    [
        ["note", "bettr-bit", "ok"],
        ["note", "better-bit", "perhaps"],
        ["note", "better-bit"],
        ["note", "torque", "a", "b", "c", "d"],
        ["note", "torque", "a", "b", "-4", "d"],
        ["note", "torque", "a\x07", "b", "4", "d"],
        ["note", "list", "--damage", "worn"],
        ["note", "better-bit", "ok", "--damage", "wobbly"],
        ["tools", "add", "spacecraft"],
        ["tools", "add"],
        ["tools", "remove", "x"],
        ["tools", "add", "ratchet", "--above", "-1"],
        ["stock", "add", "M8", "0"],
        ["stock", "add", "M8\ud800"],
        ["tools", "export", "tools.xls"],
    ],
)
def test_wrong_words_write_nothing(args):
    """One line, status 2, and no file."""
    run(*args, status=2)

    assert not place.folder().exists()


@pytest.mark.parametrize("suffix", ["toml", "csv"])
def test_tools_go_out_and_come_back(suffix, tmp_path, monkeypatch):
    """Into another own file the same; into the same one nothing is added."""
    run("tools", "add", "ratchet", "3/8", "--above", "70", "--swing", "5.5", "--note", 'a "b" \\')
    run("tools", "add", "locking pliers")
    file = str(tmp_path / f"tools.{suffix}")
    run("tools", "export", file)
    before = document("tools", "list")["tools"]
    run("tools", "export", file, status=2)
    run("tools", "export", file, "--force")

    assert [] == document("tools", "import", file)["changed"]
    monkeypatch.setenv("FASTKIT_HOME", str(tmp_path / "other"))
    run("tools", "import", file)
    assert before == document("tools", "list")["tools"]


def test_a_file_with_a_mistake_is_not_taken_in(tmp_path):
    """All or none; the file, the place and what was expected are named."""
    file = tmp_path / "tools.csv"
    file.write_text("tool,above_mm\nratchet,70\nratchet,high\n")
    refusal = run("tools", "import", str(file), status=2)

    assert "tools.csv: line 3: above_mm 'high'" in refusal.stderr
    assert [] == document("tools", "list")["tools"]
    file.write_bytes(b"\xff\xfe")
    run("tools", "import", str(file), status=2)
    run("tools", "import", str(tmp_path / "none.csv"), status=2)
    os.mkfifo(tmp_path / "pipe.csv")
    run("tools", "import", str(tmp_path / "pipe.csv"), status=2)


def test_stock_is_counted():
    run("stock", "add", "M8x20 8.8", "12", "drawer", "3")
    run("stock", "add", "M8x20 8.8", "3", "drawer 3")
    (row,) = document("stock", "list")["stock"]
    assert (15, "drawer 3") == (row["amount"], row["place"])
    run("stock", "remove", str(row["id"]), "99", status=2)
    run("stock", "remove", str(row["id"]), "5")
    (row,) = document("stock", "list", "m8X20")["stock"]
    assert 10 == row["amount"]
    run("stock", "remove", str(row["id"]))
    run("stock", "remove", str(row["id"]), status=1)
    run("stock", "list", "M8", status=1)
    assert [] == document("stock", "list")["stock"]


@pytest.mark.parametrize("suffix", ["toml", "csv"])
def test_what_is_kept_can_be_taken_in_again(suffix, tmp_path, monkeypatch):
    """Nothing is accepted by `add` that a file with it would be refused for."""
    run("tools", "add", "ratchet", "--above", "10001", status=2)
    run("tools", "add", "ratchet", "--swing", "-3", status=2)
    run("tools", "add", "ratchet", "--above", "10000", "--swing", "360")
    run("stock", "add", "washer", "1000000")
    refusal = run("stock", "add", "washer", "1", status=2)
    assert "amount '1000001': expected 1 to" in refusal.stderr
    kept = {}
    for name in ("tools", "stock"):
        run(name, "export", str(tmp_path / f"{name}.{suffix}"))
        kept[name] = document(name, "list")[name]
    monkeypatch.setenv("FASTKIT_HOME", str(tmp_path / "other"))
    for name in ("tools", "stock"):
        run(name, "import", str(tmp_path / f"{name}.{suffix}"))
        assert [dict(row, id=0) for row in kept[name]] == [
            dict(row, id=0) for row in document(name, "list")[name]
        ]


def test_a_damaged_file_is_said_and_gone_on_with():
    """The list shows what can be read; the next note sets the file aside and says so."""
    run("note", "better-bit", "ok")
    raw = place.file().read_bytes()
    place.file().write_bytes(raw[:60] + b"\x00" * 20 + raw[80:].replace(b"better", b"bitter"))
    listed = run("note", "list")
    noted = run("note", "grit-paste", "ok")

    assert "is damaged" in listed.stderr
    assert "set aside as" in noted.stderr
    assert "grit-paste" in run("note", "list").stdout


def test_a_write_that_fails_says_so():
    """Status 3, one line, nothing on standard output, also of `extract --save`."""
    place.folder().write_text("a file where the folder should be")
    for args in (["note", "better-bit", "ok"], ["extract", PUMP, "--save", "x"]):
        result = run(*args, "--json", status=3)
        assert "" == result.stdout and "nothing was kept" in result.stderr


def test_a_plan_shows_what_it_learned():
    """Seven of nine noted: the chance moves, the screen and the document say by whose record."""
    before = {step["method"]: step["chance"] for step in document("extract", PUMP)["plan"]}
    for number in range(9):
        run("note", "drill-head-off", "ok" if number < 7 else "nothing", "--damage", "worn",
            "--seized", "rusted")  # fmt: skip
    found = document("extract", PUMP)
    after = {step["method"]: step for step in found["plan"]}

    assert [("drill-head-off", "worn", "rusted", 7, 9)] == [
        tuple(row.values()) for row in found["own"]
    ]
    # a way of one tool: of a turn's tools and pulls, another may be the best for what was learned
    weighed = (8 * before["drill-head-off"] + 7) / 17
    assert weighed == pytest.approx(after["drill-head-off"]["chance"], rel=1e-9)
    assert "your own 7 of 9" in after["drill-head-off"]["why"]
    for more in ([], ["--why"]):
        assert "LEARNED  your own 7 of 9" in run("extract", PUMP, *more).stdout


def test_a_plan_is_given_whatever_is_wrong_with_the_own_file():
    """Damaged, newer, or a folder: the plan stands, and one line says what was left out."""
    run("note", "drill-head-off", "ok", "--damage", "worn", "--seized", "rusted")
    raw = place.file().read_bytes()
    for spoilt in (raw[:5000], raw[:63] + b"\x63" + raw[64:], bytes(len(raw))):
        place.file().write_bytes(spoilt)
        result = run("extract", PUMP)
        assert "FIRST" in result.stdout and str(place.file()) in result.stderr
    place.file().unlink()
    place.file().mkdir()
    assert "is not a file" in run("extract", PUMP).stderr


def test_a_measured_tool_is_planned_with_its_own_room():
    """The user's figures stand over the data's, and the tool is named with them."""
    plain = {step["method"]: step for step in document("extract", PUMP, "--above", "100")["plan"]}
    tool = plain["grit-paste"]["needs"][0]
    before = plain["grit-paste"]["margins"]["above_mm"]
    run("tools", "add", tool, "--above", str(99 - before))
    found = {step["method"]: step for step in document("extract", PUMP, "--above", "100")["plan"]}

    assert before + 1 == pytest.approx(found["grit-paste"]["margins"]["above_mm"])
    assert "as you measured it" in found["grit-paste"]["why"]
    run("tools", "remove", "1")
    run("tools", "add", tool)
    assert plain == {
        step["method"]: step for step in document("extract", PUMP, "--above", "100")["plan"]
    }


WRITING = {("note", "undo"), ("tools", "add"), ("stock", "add"), ("note", "seat-bit")}
WRITING |= {("note", "torque"), ("note", "left")}


@pytest.mark.parametrize("home", ["none", "read-only"])
@pytest.mark.parametrize(
    "line", [line for lines in EXAMPLES.values() for line in lines if "--out" not in line]
)
def test_every_command_without_a_home_or_a_right_to_write(line, home, tmp_path, monkeypatch):
    """What reads answers as ever; what writes says that it cannot, and why."""
    monkeypatch.chdir(tmp_path)
    if home == "none":
        monkeypatch.delenv("FASTKIT_HOME")
        monkeypatch.delenv("XDG_DATA_HOME", raising=False)
        monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
        monkeypatch.setattr("fastkit.shopbook.place.paths.expanduser", lambda path: path)
    else:
        run("stock", "add", "washer M8")

        def refused(folder):
            raise PermissionError(errno.EACCES, "Permission denied", str(folder))

        monkeypatch.setattr("fastkit.shopbook.store._make_folder", refused)
    words = shlex.split(line)[1:]
    writes = tuple(words[:2]) in WRITING
    result = run(*words, status=3 if writes else 0)

    if writes:
        assert "" == result.stdout
        said = "set FASTKIT_HOME" if home == "none" else "nothing was kept"
        assert said in result.stderr
    else:
        assert result.stdout


@pytest.mark.parametrize("command", ["tools", "stock"])
def test_removing_by_name_says_what_number_is_meant(command):
    """What goes is named by the number of the list, not an amount."""
    result = CliRunner().invoke(cli, [command, "remove", "torch"])

    assert 2 == result.exit_code
    assert "the number that `list` shows" in result.stderr and "amount" not in result.stderr


def test_a_stub_is_kept_until_it_breaks_again():
    """How far it stands proud comes back; once it has gone below, that is not asked of it."""
    run("extract", "M8 stud snapped proud, rusted", "--stub", "12", "--save", "manifold")
    run("note", "clamp-wrench", "nothing", "--again", "manifold")

    assert 12.0 == situation("--again", "manifold")["stub_mm"]
    below = situation("--again", "manifold", "--damage", "snapped-below")
    assert 4.0 == below["stub_mm"]  # what is usual: nobody has measured it
    assert 7.0 == situation("--again", "manifold", "--stub", "7")["stub_mm"]
