"""`gristbook explain`: how one figure is worked out, in a terminal, down to the author's own lines."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from gristbook import cli


def told(ran) -> dict[str, str]:  # type: ignore[no-untyped-def]
    """What is said of each figure, by what it is called; the last of a name."""
    assert (ran.status, ran.err) == (cli.FINE, "")
    blocks = (block.partition("\n") for block in ran.out.split("\n\n")[1:])
    return {head.partition(" = ")[0]: f"{head.partition(' = ')[2]}\n{rest}" for head, _, rest in blocks}


def test_a_figure_is_explained_from_the_authors_line_to_its_number(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    """By hand: 40 g of 4.5 % bring 1800 mg of alpha acids (Tinseth 1997: mg are grams, times the share, times 1000)."""
    said = told(run("explain", "book/bitter.md", "bitterness"))
    line = (book / "bitter.md").read_text("utf-8").splitlines().index("  - 40 g Fuggle, 4.5 % alpha, 60 min") + 1
    assert f"(bitter.md:{line})" in said["weight of Fuggle"]
    assert said["alpha acids of Fuggle"].startswith("1800 mg\n")
    assert "g = 40" in said["alpha acids of Fuggle"]
    assert "Tinseth" in said["alpha acids of Fuggle"]
    assert [*said][-1].startswith("bitterness: ")


def test_the_last_line_is_the_figure_as_figures_prints_it(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    listed = run("figures", "book/bitter.md").out
    (row,) = re.findall(r"^  original gravity {2,}(.+)$", listed, flags=re.M)
    *_, figure, sure = run("explain", "book/bitter.md", "original gravity").out.strip().splitlines()
    shown, _, between = row.partition("nine in ten")
    assert figure == f"original gravity: {shown.strip()}"
    assert sure == f"nine in ten{between}"


def test_a_formula_is_told_once(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    out = run("explain", "book/bitter.md", "original gravity").out
    formulas = [line.strip() for line in out.splitlines() if re.match(r"    \S+ = .*[A-Za-z].*\(1 − M\)", line)]
    assert len(formulas) == 1
    assert "    as potential of Pale ale malt" in out


def test_a_figure_goes_by_its_id_too_and_a_line_has_its_own(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    by_words, by_id = (run("explain", "book/bitter.md", it).out for it in ("mash efficiency", "mash-efficiency"))
    assert by_words == by_id
    assert "bitterness of Fuggle: " in run("explain", "book/bitter.md", "hop.fuggle/bitterness").out


def test_another_size_is_explained_by_its_own_weights(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    """By hand: half the batch takes half of the 220 g of caramel malt, to the 5 g of a kitchen scale."""
    said = told(run("explain", "book/bitter.md", "colour", "--batch", "10 L"))
    assert said["weight of Caramel malt 60 L, rounded"].startswith("0.11 kg\n")
    assert "220 g" in said["weight of Caramel malt 60 L"]


@pytest.mark.parametrize(
    ("asked", "words"),
    [("boil volum", 'is no figure; did you mean "boil volume"?'), ("top-up water", "has none in this recipe")],
)
def test_what_is_no_figure_is_said_and_what_was_meant(book: Path, run, asked: str, words: str) -> None:  # type: ignore[no-untyped-def]
    ran = run("explain", "book/bitter.md", asked)
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert words in ran.err


def test_a_recipe_that_is_not_there_is_a_problem(book: Path, run) -> None:  # type: ignore[no-untyped-def]
    ran = run("explain", "book/nowhere.md", "colour")
    assert ran.status == cli.PROBLEMS
    assert "there is no such file" in ran.err
