"""Lines of editions: what they ask for, under which address, in which units, and what is wrong with the others."""

import pytest

from gristbook.model.edition import Edition
from gristbook.problems import Place, Problems
from gristbook.reading.tree import Table, Text
from gristbook.text.brewhouse import default_brewhouse
from gristbook.text.editions import read_editions, warn_of_idle_drops

SETS = {name: default_brewhouse(name) for name in ("stove", "gallons", "Küche", "old mill")}
PLACE = Place("book.yaml", 4, 13)


def read(*lines: str) -> tuple[tuple[Edition, ...], tuple[Edition, ...], list[str]]:
    problems = Problems()
    nodes = tuple(Text(line, Place("book.yaml", 4 + n, 13)) for n, line in enumerate(lines))
    wanted, dropped = read_editions(nodes, SETS, problems)
    return wanted, dropped, [str(problem) for problem in problems]


@pytest.mark.parametrize(
    ("line", "litres", "brewhouse", "source", "us", "slug"),
    [
        ("10 L", 10, None, "as written", False, "10-l"),
        ("5 gal", 18.927, None, "as written", True, "5-gal"),
        ("5 imp gal", 22.730, None, "as written", False, "5-imp-gal"),
        ("20 qt", 18.927, None, "as written", True, "20-qt"),
        ("extract 10 L", 10, None, "extract", False, "extract-10-l"),
        ("from extract 10 L", 10, None, "extract", False, "extract-10-l"),
        ("Extract 10 L In stove", 10, "stove", "extract", False, "extract-10-l-in-stove"),
        ("10 L in stove", 10, "stove", "as written", False, "10-l-in-stove"),
        ("10L in the stove", 10, "stove", "as written", False, "10-l-in-stove"),
        ("10 L on the stove", 10, "stove", "as written", False, "10-l-in-stove"),
        ("12 L in gallons", 12, "gallons", "as written", False, "12-l-in-gallons"),
        ("2.5 gal with the gallons", 9.464, "gallons", "as written", True, "2-5-gal-in-gallons"),
        ("2½ gal", 9.464, None, "as written", True, "2-1-2-gal"),
        ("2 1/2 gal", 9.464, None, "as written", True, "2-1-2-gal"),
        ("grain", None, None, "grain", False, "grain"),
        ("extract in Küche", None, "Küche", "extract", False, "extract-in-kuche"),
        ("15 L in old mill", 15, "old mill", "as written", False, "15-l-in-old-mill"),
    ],
)
def test_a_line_is_an_edition(
    line: str, litres: float | None, brewhouse: str | None, source: str, us: bool, slug: str
) -> None:
    wanted, dropped, problems = read(line)
    assert (dropped, problems) == ((), [])
    (edition,) = wanted
    assert (edition.batch.number if edition.batch else None) == (litres and pytest.approx(litres, abs=0.001))
    assert (edition.brewhouse, edition.source, edition.us, edition.slug) == (brewhouse, source, us, slug)
    assert edition.place == PLACE


@pytest.mark.parametrize(
    ("line", "drops"),
    [
        ("no 10 L in stove", "10 L in stove"),
        ("no 10L in the stove", "10 L in stove"),
        ("no extract 10 L", "from extract 10 L"),
        ("no grain", "grain"),
    ],
)
def test_an_edition_is_dropped_however_it_is_put(line: str, drops: str) -> None:
    (asked, _, _), (_, dropped, problems) = read(drops), read(line)
    assert [edition.slug for edition in dropped] == [asked[0].slug]
    assert problems == []


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("", '"" is not an edition'),
        ("no", '"no" is not an edition'),
        ("twice as much", '"twice as much" is not an edition'),
        ("10 kg", "kg"),
        ("10 furlongs", 'unknown unit "furlongs"'),
        ("0 L", "0 L"),
        ("-5 L", '"-5 L" is not an edition'),
        ("10 L in the cellar", 'unknown brewhouse "cellar"'),
        ("no 10 L in the cellar", 'unknown brewhouse "cellar"'),
        ("10 L in Stove", ':4:21: error: unknown brewhouse "Stove" in "10 L in Stove"; expected one of Küche, gallons'),
        ("10 L in Stove", 'did you mean "stove"?'),
        ("10 L, in stove", '"10 L, in stove" is not an edition'),
    ],
)
def test_what_is_no_edition_is_a_problem(line: str, words: str) -> None:
    wanted, dropped, problems = read(line)
    assert (wanted, dropped) == ((), ())
    assert len(problems) == 1
    assert words in problems[0]


def test_an_edition_asked_for_twice_is_a_problem() -> None:
    wanted, _, problems = read("10 L in stove", "5 gal", "10L on the stove")
    assert [edition.slug for edition in wanted] == ["10-l-in-stove", "5-gal"]
    assert problems == ['book.yaml:6:13: error: "10L on the stove" is asked for twice']


def test_a_table_is_no_edition() -> None:
    problems = Problems()
    assert read_editions((Table((), PLACE),), SETS, problems) == ((), ())
    assert [problem.what for problem in problems] == ["an edition is a line"]


def test_editions_apart_have_addresses_apart() -> None:
    lines = ("2 gal", "2½ gal", "2.5 gal", "extract 2 gal", "grain 2 gal", "2 gal in stove", "2 gal in Küche", "2 L")
    wanted, _, problems = read(*lines)
    assert problems == []
    assert len({edition.slug for edition in wanted}) == len(lines)


@pytest.mark.parametrize(
    ("line", "book", "problem"),
    [
        ("no 5 gal in gallons", ("10 L", "5 gal in gallons"), ""),
        (
            "no 5 gal in stove",
            ("10 L in stove",),
            '"no 5 gal in stove" drops nothing; expected one of the book\'s editions: 10 L in stove',
        ),
        ("no grain", ("10 L", "5 gal"), "drops nothing; expected one of the book's editions: 10 L, 5 gal"),
        ("no 10 L", (), "drops nothing; expected one of the book's editions: it has none"),
    ],
)
def test_a_line_that_drops_nothing_is_warned_of(line: str, book: tuple[str, ...], problem: str) -> None:
    (asked, _, _), (_, dropped, _) = read(*book), read(line)
    problems = Problems()
    warn_of_idle_drops(dropped, asked, problems)
    said = [str(one) for one in problems]
    assert len(said) == (1 if problem else 0)
    assert all(problem in one and one.startswith("book.yaml:4:13: warning:") for one in said), said
