"""Guided questions: few, the most telling first, none that could not change the first step."""

import pytest
from click.testing import CliRunner

from fastkit.answers.ask import MOST, Question, answered, ask, next_question
from fastkit.answers.extract import extract
from fastkit.cli import cli
from fastkit.errors import Misuse

FLUSH = "M8 bolt snapped flush in steel, painted over"


def run(*arguments, said=""):
    """The command with lines typed, or piped, into it."""
    return CliRunner().invoke(cli, ["extract", *arguments], input=said)


def test_a_question_names_what_changes_the_first_step(store):
    """Each answer that it counts as telling does change it, by the whole plan."""
    question = next_question(store, FLUSH, {}, frozenset())
    assert question is not None
    first = extract(FLUSH).plan[0].method

    for said in question.telling:
        options = answered(store, question, said, {})
        assert extract(FLUSH, **options).plan[0].method != first, said


def test_asking_ends_when_nothing_would_change_the_first_step(store):
    """Every plausible answer to every question left over leads to the same first step."""
    words = "PH2 M4 stripped in plastic, power none, 40 mm above, blind, nothing can be moved"
    options, asked = {}, set()
    for _ in range(4 * MOST):
        question = next_question(store, words, options, frozenset(asked))
        if question is None:
            break
        asked.add(question.name)
    first = extract(words).plan[0].method
    for name in ("load", "recess", "support", "coating", "wasted"):
        if name in asked:
            continue
        for said in ask(store, name, words, {}).answers:
            step = extract(words, **answered(store, ask(store, name, words, {}), said, {})).plan[0]
            assert step.method == first, (name, said)


def test_what_was_said_is_not_asked(store):
    """Neither what the words hold nor what an option gives nor what was asked before."""
    words = "M8 6 mm hex socket stripped, rusted, 60 above, 10 beside, swing 30, on stands, no load"
    said = {"thread", "drive", "damage", "seized", "above", "beside", "swing", "support", "load"}
    asked: set[str] = set()
    for _ in range(MOST):
        question = next_question(store, words, {"spoil": "60"}, frozenset(asked))
        if question is None:
            break
        assert question.name not in asked | said
        asked.add(question.name)
    assert asked


def test_answers_are_those_of_the_options(store):
    """A wrong one is refused as the option refuses it; a beginning is enough."""
    question = ask(store, "load", FLUSH, {})
    assert isinstance(question, Question)

    assert answered(store, question, "spr", {}) == {"load": "spring"}
    assert answered(store, question, "", {"load": None}) == {"load": None}
    with pytest.raises(Misuse, match="expected"):
        answered(store, question, "purple", {})


def test_piped_answers_lead_to_the_plan():
    """Lines on standard input answer; prompts stand apart from the result."""
    result = run(FLUSH, "--ask", said="spring\n\n\n\n\n\n\n\n\n")

    assert result.exit_code == 0, result.output
    assert "READ AS" in result.stdout
    assert "Enter keeps" in result.stderr
    assert "Enter keeps" not in result.stdout


def test_end_of_input_ends_asking():
    """Nothing typed at all: the plan as it stands."""
    asked, plain = run(FLUSH, "--ask"), run(FLUSH)

    assert asked.exit_code == 0
    assert asked.stdout.strip() == plain.stdout.strip()


def test_a_wrong_answer_is_asked_again():
    """One line says what was expected."""
    result = run(FLUSH, "--ask", said="purple monkey\n")

    assert result.exit_code == 0, result.output
    assert result.stderr.count("expected") >= 1


def test_answers_stand_in_the_plan():
    """What was answered is said in the answer, under READ AS."""
    question_first = run("M8 bolt 13 mm hex rusted", "--ask", said="\n" * MOST)
    assert question_first.stderr.count("Enter keeps") <= MOST
    result = run("17 mm nut seized", "--ask", "--load", "none", said="")
    assert result.exit_code == 0


def test_nothing_said_asks_for_words_first():
    """Without words the first question is what it is; without an answer it is refused."""
    result = run("--ask", said="13 mm bolt rounded, M8, rusted\n")
    assert result.exit_code == 0, result.output
    assert "rounded" in result.stdout

    assert run("--ask").exit_code == 2


def test_no_questions_with_json():
    """A script cannot be asked."""
    result = run(FLUSH, "--ask", "--json")

    assert result.exit_code == 2
    assert result.stdout == ""
    assert "--ask" in result.stderr
