"""A book ten times as long takes ten times as long to check, and what is wrong in it is told in a page."""

from __future__ import annotations

import cProfile
import pstats
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from gristbook import cli
from gristbook.problems import Place, Problem, Problems

from .conftest import BITTER, Ran

LINES: dict[str, tuple[str, str]] = {
    "hops": ("hops:\n", "  - 1 g Fuggle, 4.5 % alpha, 60 min\n"),
    "hops of all kinds": ("hops:\n", "  - 1 g {kind}, {n} min\n"),
    "hops that are misspelt": ("hops:\n", "  - 1 g Fugle{n}, 60 min\n"),
    "parts that say nothing": ("hops:\n", "  - 1 g Fuggle, 4.5 % alfa{n}, 60 min\n"),
    "hops as tables": ("hops:\n", "  - {{name: Fugle{n}, amount: 1 g}}\n"),
    "malts": ("malts:\n", "  - 1 g caramel malt 60\n"),
    "malts in percent": ("malts:\n", "  - 0.01 % caramel malt 60\n"),
    "sugars": ("sugars:\n", "  - 1 g table sugar\n"),
    "spices": ("finings and spices:\n", "  - 1 g coriander seed, 5 min\n"),
    "steps of the mash": ("mash:\n", "  - 67 °C, 1 min\n"),
    "figures that nobody knows": ("ferment: 19 °C, 10 days\nexpect:\n", "  gravity {n}: 1.040 ± 0.002\n"),
}
KINDS = ("Fuggle", "Cascade", "East Kent Golding", "Magnum", "Perle", "Saaz")


def calls(book: Path, where: str, line: str, many: int) -> int:
    """How many calls a check makes of a recipe with so many lines."""
    text = "".join(line.format(n=n, kind=KINDS[n % len(KINDS)]) for n in range(many))
    kept = BITTER if where not in BITTER else BITTER.replace(where, where + text)
    (book / "bitter.md").write_text(
        kept if where in BITTER else BITTER.replace("yeast:", f"{where}{text}yeast:"), "utf-8"
    )
    return checked()


def checked() -> int:
    """How many calls a check makes, every pattern taken apart anew: what else was run before counts for nothing."""
    re.purge()
    profile = cProfile.Profile()
    profile.runcall(cli.main, ["check", "book"])
    return int(pstats.Stats(profile).total_calls)  # type: ignore[attr-defined]


@pytest.mark.parametrize("kind", LINES)
def test_the_work_grows_as_the_lines_do(kind: str, book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    calls(book, *LINES[kind], 10)  # whatever is done once
    small, middle, large = (calls(book, *LINES[kind], many) for many in (150, 300, 600))
    assert large - middle < 2.3 * (middle - small)
    assert "fault of Gristbook" not in capsys.readouterr().err


def test_the_work_grows_as_the_recipes_do(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    counted = []
    for many in (1, 8, 16, 32):
        for n in range(many):
            (book / f"bitter-{n}.md").write_text(BITTER.replace("60 min", "60 mins of it"), "utf-8")
        counted.append(checked())
    _, small, middle, large = counted  # the first does whatever is done once
    assert large - middle < 2.3 * (middle - small)


def test_counting_problems_does_not_go_through_them_all() -> None:
    problems = Problems()
    for n in range(1000):
        problems.error(Place(f"{n}.md"), "what")
    profile = cProfile.Profile()
    profile.runcall(lambda: (len(problems), problems.errors("7.md")))
    assert pstats.Stats(profile).total_calls < 20  # type: ignore[attr-defined]


def test_a_file_has_fifty_problems_shown_and_the_rest_counted(book: Path, run: Callable[..., Ran]) -> None:
    calls(book, *LINES["hops that are misspelt"], 70)
    run("words")
    ran = run("check", "book")
    of_file = [line for line in ran.err.splitlines() if line.startswith("book/bitter.md")]
    assert len(of_file) == 51
    assert of_file[-1] == "book/bitter.md: 20 more like these"
    assert "70 errors" in ran.err


def test_of_many_problems_the_errors_are_shown(book: Path, run: Callable[..., Ran]) -> None:
    """Warnings come first in the file and are too many: the error after them is there all the same."""
    pages = "".join(f"[{n}](nowhere-{n}.md) " for n in range(80))
    (book / "bitter.md").write_text(BITTER + pages + "![a hop](hop.jpg)\n", "utf-8")
    ran = run("check", "book")
    assert "a picture that is not there" in ran.err
    assert "1 error, 80 warnings" in ran.err


@pytest.mark.parametrize("where", ["what", "within", "expected", "suggestion"])
def test_no_message_is_longer_than_one_reads(where: str) -> None:
    said = {"what": "what"} | {where: "x" * 100_000}
    assert len(str(Problem(Place("a.md"), **said))) < 850


def test_what_is_quoted_is_cut_and_what_is_said_of_it_is_not() -> None:
    words = str(Problem(Place("a.md"), f'"{"x" * 100_000}" is no price', within="y" * 100_000, expected="3 / kg"))
    assert words == f'a.md:1:1: error: "{"x" * 199}…" is no price in "{"y" * 199}…"; expected 3 / kg'


def test_no_message_talks_to_the_terminal() -> None:
    problem = Problem(Place("a\x1b[2J.md"), 'a "\x1b]0;title\x07" and \u202eevil', within="\x9b31m")
    assert str(problem).isprintable()
    assert "\\x1b[2J" in str(problem)
