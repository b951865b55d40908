"""One book with thirty different mistakes: all are told at once, each at the first letter of what is wrong."""

import re
from pathlib import Path

import pytest

from gristbook.cli import PROBLEMS, main
from gristbook.problems import Problems
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

BOOK = Path(__file__).with_name("thirty-mistakes")
EXPECTED = [line.split(" | ") for line in (BOOK / "expected.problems").read_text("utf-8").splitlines()[1:]]


def test_a_book_with_thirty_mistakes_has_thirty_problems_at_their_places() -> None:
    problems = Problems()
    book = read_book(BOOK, problems)
    assert book is not None
    plan_book(book, problems)
    shown = [str(problem) for problem in problems]
    assert len(EXPECTED) == len(shown) == 30, "\n".join(shown)
    for line, (place, _, words) in zip(shown, EXPECTED, strict=True):
        assert re.fullmatch(re.escape(f"{place}: {words}").replace("…", ".+"), line), line


@pytest.mark.parametrize(("place", "written"), [row[:2] for row in EXPECTED], ids=[row[0] for row in EXPECTED])
def test_what_is_wrong_stands_where_the_problem_points(place: str, written: str) -> None:
    path, line, column = place.split(":")
    pointed_at = (BOOK / path).read_text("utf-8").split("\n")[int(line) - 1][int(column) - 1 :]
    assert pointed_at.startswith(written.replace("\\t", "\t"))


def test_the_command_tells_them_all_and_ends_in_words(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(BOOK)]) == PROBLEMS
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.splitlines()[-1] == "27 errors, 3 warnings"
    assert [line.removeprefix(f"{BOOK.as_posix()}/").split(": ")[0] for line in told.err.splitlines()[:-1]] == [
        row[0] for row in EXPECTED
    ]
