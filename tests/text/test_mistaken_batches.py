"""Batches with forty-one different mistakes: all are told at once, each at the first letter of what is wrong."""

import re
from pathlib import Path

import pytest

from gristbook.cli import PROBLEMS, main
from gristbook.problems import Problems
from gristbook.text.book import read_book

BOOK = Path(__file__).with_name("mistaken-batches")
EXPECTED = [line.split(" | ") for line in (BOOK / "expected.problems").read_text("utf-8").splitlines()[1:]]


def test_batches_with_forty_one_mistakes_have_as_many_problems_at_their_places() -> None:
    problems = Problems()
    book = read_book(BOOK, problems)
    assert book is not None
    shown = [str(problem) for problem in problems]
    assert len(EXPECTED) == len(shown) == 41, "\n".join(shown)
    for line, (place, _, words) in zip(shown, EXPECTED, strict=True):
        assert re.fullmatch(re.escape(f"{place}: {words}").replace("…", ".+"), line), line


@pytest.mark.parametrize(("place", "written"), [row[:2] for row in EXPECTED], ids=[row[0] for row in EXPECTED])
def test_what_is_wrong_with_a_batch_stands_where_the_problem_points(place: str, written: str) -> None:
    path, line, column = place.split(":")
    pointed_at = (BOOK / path).read_text("utf-8").split("\n")[int(line) - 1][int(column) - 1 :]
    assert pointed_at.startswith(written)


def test_batches_that_can_be_read_stay_and_recipes_do_not_suffer() -> None:
    """One of a recipe that is gone, and one whose log has two rows that say nothing, are batches all the same."""
    book = read_book(BOOK, Problems())
    assert book is not None
    assert [(batch.recipe, batch.slug) for batch in book.batches] == [
        ("pump-mild", "2026-03-07"),
        ("pump-bitter", "2026-03-14"),
    ]
    assert [recipe.slug for recipe in book.recipes] == ["pump-mild"]
    log = book.batches[0].measured.log
    assert log is not None
    assert log.gravities == (1.034, 1.010)


def test_the_command_tells_every_mistake_and_ends_in_words(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(BOOK)]) == PROBLEMS
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.splitlines()[-1] == "33 errors, 8 warnings"
