"""What a build takes over from an earlier one: only what can have changed is worked out and made."""

from __future__ import annotations

import os
import pickle
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from markupsafe import Markup

from gristbook import again
from gristbook.built import last_built
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.bare import bare
from gristbook.sheet.value import given
from gristbook.site.desk import Written
from gristbook.site.disk.keeping import kept, taken_up
from gristbook.site.disk.spelled import digest
from gristbook.site.past import Since

Run = Callable[..., Any]

LISTS = {"index", "find", "table", "chapters/more-beers"}
WITH_FIGURES = {*LISTS, "pots", "balance.svg"}
OF_THE_BITTER = {"ingredients/pale-ale-malt", "ingredients/caramel-malt-60-l"}


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> set[str]:
    """The pieces that do not stand, by their names."""
    found: set[str] = set()
    stands = Since.stands

    def standing(self: Since, name: str, piece: Any) -> Any:
        it = stands(self, name, piece)
        found.update(() if it else {name})
        return it

    monkeypatch.setattr(Since, "stands", standing)
    return found


@pytest.fixture
def planned(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The recipes that are worked out."""
    found: list[str] = []
    plans = again.plan_recipe

    def planning(recipe: Any, *more: Any) -> Any:
        found.append(recipe.slug)
        return plans(recipe, *more)

    monkeypatch.setattr(again, "plan_recipe", planning)
    return found


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def a_word(book: Path) -> None:
    with (book / "bitter.md").open("a", encoding="utf-8") as file:
        file.write("One word more.\n")


def a_title(book: Path) -> None:
    change(book / "bitter.md", "Reed Bank Bitter", "Reed Bank Best Bitter")


def a_gram(book: Path) -> None:
    change(book / "bitter.md", "220 g caramel", "222 g caramel")


def a_page(book: Path) -> None:
    (book / "pages").mkdir()
    (book / "pages" / "us.md").write_text("---\ntitle: Of us\n---\nWe brew.\n", "utf-8")


def a_word_on_a_page(book: Path) -> None:
    change(book / "pages" / "us.md", "We brew.", "We brew, and drink.")


@pytest.mark.parametrize(
    ("before", "edit", "wanted", "works"),
    [
        (None, a_word, {"bitter"}, ["bitter"]),
        (None, a_title, {"bitter", "mild", "learning", "pots", *LISTS}, ["bitter", "mild"]),
        (a_page, a_word_on_a_page, {"pages/us", "find"}, []),
    ],
)
def test_only_what_an_edit_shows_on_is_made(
    before: Callable[[Path], None] | None,
    edit: Callable[[Path], None],
    wanted: set[str],
    works: list[str],
    book: Path,
    run: Run,
    made: set[str],
    planned: list[str],
) -> None:
    if before:
        before(book)
    run("build", "book", "--out", "site")
    made.clear()
    planned.clear()
    edit(book)
    run("build", "book", "--out", "site")
    assert {it for it in made if not it.startswith(("ingredients/", "brewhouses"))} == wanted
    assert planned == works


def test_a_gram_of_malt_leaves_what_shows_no_figure_of_it(book: Path, run: Run, made: set[str]) -> None:
    run("build", "book", "--out", "site")
    every = set(made)
    made.clear()
    a_gram(book)
    run("build", "book", "--out", "site")
    assert made >= {"bitter", *WITH_FIGURES, *OF_THE_BITTER}
    stood = every - made
    assert stood >= {"mild", "cautions", "learning", "ingredients", "brewhouses", "ingredients/fuggle"}


def test_what_a_build_keeps_holds_no_page(book: Path, run: Run, tmp_path: Path) -> None:
    (book / "bitter.md").open("a", encoding="utf-8").write("**Bold**, with [a way](mild.md) and wort.\n")
    run("build", "book", "--out", "site")
    path = last_built(Path("site"), ".past")
    past = taken_up(path.read_bytes())
    assert set(past.beers) == {"bitter.md", "mild.md"}
    assert b"<strong>" not in path.read_bytes()
    assert b"<p" not in path.read_bytes()


@pytest.mark.parametrize(
    "spoil", [lambda _: b"", lambda it: it[:-9], lambda _: pickle.dumps({"a": 1}), lambda _: b"\x80\x05"]
)
def test_whatever_lies_where_a_build_is_kept_the_site_is_that_of_a_clean_one(
    spoil: Callable[[bytes], bytes], book: Path, run: Run
) -> None:
    run("build", "book", "--out", "site")
    path = last_built(Path("site"), ".past")
    path.write_bytes(spoil(path.read_bytes()))
    a_word(book)
    assert run("build", "book", "--out", "site").status == 0
    run("build", "book", "--out", "clean", "--fresh")
    site, clean = (
        {it.relative_to(out): it.read_bytes() for it in Path(out).rglob("*.html")} for out in ("site", "clean")
    )
    assert site == clean


class _Does:
    def __reduce__(self) -> Any:
        return os.getenv, ("HOME",)


@pytest.mark.parametrize("it", [Markup("<p>"), len, _Does(), {"a": Path()}])
def test_nothing_is_kept_that_is_none_of_ours(it: object) -> None:
    with pytest.raises((TypeError, pickle.PicklingError)):
        kept(it)


def test_what_somebody_else_laid_there_is_not_run() -> None:
    with pytest.raises(pickle.UnpicklingError, match="none of ours"):
        taken_up(pickle.dumps(_Does()))
    with pytest.raises(pickle.UnpicklingError, match="nothing that a build keeps"):
        taken_up(pickle.dumps(kept))


def test_a_value_that_is_kept_says_the_same_without_what_it_was_made_from() -> None:
    malt = given(3.0, "kg", "pale malt", words="the recipe", ends=(-0.1, 0.2))
    other = given(1.0, "kg", "wheat malt", words="the recipe", ends=(-0.1, 0.1))
    whole = sum_of([malt, other], "grist")
    again = taken_up(kept((whole, malt)))
    assert [it.number for it in again] == [4.0, 3.0]
    assert [it.ends for it in again] == [whole.ends, malt.ends]
    assert (again[0].mover, again[0].certain) == (whole.mover, False)
    assert digest(again) == digest((whole, malt)) == digest((bare(whole), bare(malt)))
    assert digest(again) != digest((malt, whole))


def test_nobody_says_of_what_does_something_that_it_is_as_it_was() -> None:
    with pytest.raises(TypeError):
        digest(print)
    assert digest(Written("a", (), (), (), frozenset("ab"), (), None)) == digest(
        Written("a", (), (), (), frozenset("ba"), (), None)
    )
