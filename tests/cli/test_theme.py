"""A book's theme: ours copied into it, its own style sheet beside ours, and what templates may ask for."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
import the_demo

from gristbook import cli
from gristbook.reading.files import themes
from gristbook.site.variables import VIEWS, types, variables

from .conftest import Ran
from .test_again import on_disk

Run = Callable[..., Ran]
OURS = sorted(path.relative_to(themes()).as_posix() for path in themes().rglob("*") if path.is_file())


def test_a_book_with_all_of_ours_in_its_theme_is_the_same_book(book: Path, run: Run) -> None:
    assert sorted(run("theme", "copy").out.split()) == OURS
    for name in OURS:
        ran = run("theme", "copy", name, "--book", "book")
        assert (ran.status, ran.out) == (cli.FINE, f"book/theme/{name}\n")
    plain = book.parent / "plain"
    plain.mkdir()
    for path in book.glob("*.*"):
        (plain / path.name).write_bytes(path.read_bytes())
    ran = [run("build", name, "--out", f"site-of-{name}") for name in ("book", "plain")]
    assert [(it.status, it.err) for it in ran] == [(cli.FINE, "")] * 2
    assert on_disk(Path("site-of-book")) == on_disk(Path("site-of-plain"))


def test_a_copy_goes_into_the_book_that_one_stands_in(book: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    (book / "mild").mkdir()
    monkeypatch.chdir(book / "mild")
    assert run("theme", "copy", "learning/balance.md").status == cli.FINE
    assert (book / "theme/learning/balance.md").read_bytes() == (themes() / "learning/balance.md").read_bytes()


def test_nothing_is_written_over(book: Path, run: Run) -> None:
    (book / "theme").mkdir()
    (book / "theme" / "page.html").write_text("mine", "utf-8")
    ran = run("theme", "copy", "page.html", "--book", "book")
    assert (ran.status, ran.err) == (
        cli.PROBLEMS,
        "gristbook: book/theme/page.html is there already: nothing was written\n",
    )
    assert (book / "theme" / "page.html").read_text("utf-8") == "mine"


@pytest.mark.parametrize("what", ["copy", "variables"])
@pytest.mark.parametrize(
    ("name", "told"),
    [("recipie.html", 'is called "recipie.html"; did you mean "recipe.html"?'), ("../secret", 'is called "../secret"')],
)
def test_what_is_not_ours_is_told_with_the_nearest_that_is(
    book: Path, run: Run, what: str, name: str, told: str
) -> None:
    ran = run("theme", what, name, "--book", "book")
    assert (ran.status, ran.out, ran.err.strip()) == (cli.USAGE, "", f"gristbook: nothing of ours {told}")
    assert not (book / "theme").exists()


def test_a_style_sheet_of_ones_own_is_on_every_page_after_ours(book: Path, run: Run) -> None:
    (book / "theme").mkdir()
    (book / "theme" / "extra.css").write_text("h1 { color: red; }\n", "utf-8")
    assert run("build", "book", "--out", "site").status == cli.FINE
    site = Path("site")
    assert (site / "extra.css").read_text("utf-8") == "h1 { color: red; }\n"
    pages = sorted(site.rglob("*.html"))
    assert {site / "bitter/card.html", site / "bitter/buy.html", site / "bitter/day.html"} < set(pages)
    for page in pages:
        sheets = re.findall(r'<link rel="stylesheet" href="([^"]*)">', page.read_text("utf-8"))
        assert [(page.parent / it).resolve() for it in sheets] == [
            site.absolute() / "style.css",
            site.absolute() / "extra.css",
        ], page


def test_a_book_without_one_has_our_style_sheet_alone(demo_site: the_demo.Site) -> None:
    for path, page in demo_site.files.items():
        if path.endswith(".html"):
            assert page.count(b'rel="stylesheet"') == 1, path


def test_what_each_template_is_given_is_what_its_pages_are_made_from(demo_site: the_demo.Site) -> None:
    assert dict(demo_site.views) == {name: view for name, view in VIEWS.items() if not name.startswith("paper/")}
    assert len(demo_site.views) == len(dict(demo_site.views))


@pytest.mark.parametrize("template", [name for name in OURS if name.endswith(".html")])
def test_every_template_says_what_it_is_given(run: Run, template: str) -> None:
    ran = run("theme", "variables", template)
    assert ran.status == cli.FINE
    if template in VIEWS:
        said = dict(re.findall(r"^  view\.(\w+) +(\S.*)$", ran.out, re.MULTILINE))
        asked = set(re.findall(r"\bview\.(\w+)", (themes() / template).read_text("utf-8")))
        assert asked <= said.keys() == {it.name for it in variables(VIEWS[template])}
    else:
        assert "part of pages" in ran.out


def test_every_type_that_a_view_holds_can_be_asked_for_and_says_what_it_is(run: Run) -> None:
    assert {"Figure", "Brew", "Glance", "Link"} <= types().keys()
    for name in types():
        ran = run("theme", "variables", name)
        assert ran.status == cli.FINE
        assert re.search(rf"^{name}: {name}\n  [A-Z]\S* ", ran.out, re.MULTILINE), name
    for name in VIEWS:
        assert f"\n{name} " in "\n" + run("theme", "variables").out


def test_the_style_sheet_says_what_it_goes_by(run: Run) -> None:
    told = run("theme", "variables", "style.css").out.splitlines()
    words = {line.split()[0]: line.split(maxsplit=1)[1] for line in told[1:]}
    assert words["--care"] == "cautions"
    assert words["--accent"] == "links, and what is to be pressed"
    assert words["--measure"] == "37rem"


def test_the_colour_of_links_is_not_that_of_cautions() -> None:
    rules = re.findall(r"([^{}]+)\{([^{}]*)\}", (themes() / "style.css").read_text("utf-8"))
    cautions = [told for names, told in rules if re.search(r"\.(caution|care|more-care)\b", names)]
    assert len([told for told in cautions if "var(--care)" in told]) == 4
    assert not [told for told in cautions if "var(--accent)" in told]
    assert [told for told in (told for _, told in rules) if "var(--accent)" in told]
