"""Templates: a book's own are laid over ours, may build on them, and are told of when they are broken."""

from __future__ import annotations

from pathlib import Path

import pytest

from gristbook.charts.caches import FrameCache
from gristbook.problems import Problems
from gristbook.reading.files import themes
from gristbook.site.build import make_site
from gristbook.site.pages import Page, Site
from gristbook.site.render import Broken, Renderer

SITE = Site("A book", "An author", "", "en", False, ())
PAGE = Page("x.html", "page.html", "A <title>", 'A "description"', {"title": "T", "prose": "P"})


def rendered(theme: Path | None = None) -> str:
    return Renderer(SITE, theme).page(PAGE).decode()


def test_an_override_is_taken_instead_of_ours(tmp_path: Path) -> None:
    (tmp_path / "page.html").write_text("mine: {{ view.title }}", encoding="utf-8")
    assert rendered(tmp_path) == "mine: T"


def test_an_override_may_extend_what_it_replaces(tmp_path: Path) -> None:
    template = '{% extends "!page.html" %}{% block footer %}<p>my own foot</p>{% endblock %}'
    (tmp_path / "page.html").write_text(template, encoding="utf-8")
    page = rendered(tmp_path)
    assert "<p>my own foot</p>" in page
    assert "<h1>T</h1>" in page
    assert "colophon" not in page


def test_an_authors_style_sheet_may_include_ours(tmp_path: Path) -> None:
    (tmp_path / "style.css").write_text('{% include "!style.css" %}\n:root { --accent: #004488; }\n', encoding="utf-8")
    style = Renderer(SITE, tmp_path).assets()["style.css"].decode()
    assert style.startswith("/* A page like a cookbook's")
    assert style.endswith(":root { --accent: #004488; }\n")


def test_other_files_of_a_theme_come_along_and_hidden_ones_do_not(tmp_path: Path) -> None:
    (tmp_path / "fonts").mkdir()
    (tmp_path / "fonts" / "own.woff2").write_bytes(b"font")
    (tmp_path / ".secret").write_bytes(b"no")
    (tmp_path / ".git").mkdir()
    (tmp_path / ".git" / "config").write_bytes(b"no")
    assets = Renderer(SITE, tmp_path).assets()
    assert assets["fonts/own.woff2"] == b"font"
    assert {"style.css", "units.js", "icon.svg"} <= set(assets)
    assert not [name for name in assets if ".secret" in name or ".git" in name]


@pytest.mark.parametrize(
    ("template", "line"),
    [
        ("one\n{% if %}\n", 2),
        ("one\ntwo\n{{ view.nothing_of_the_sort }}\n", 3),
        ("{{ 1 // 0 }}", 1),
        ('{% extends "!no-such.html" %}', 1),
    ],
)
def test_a_broken_template_says_its_file_and_line(tmp_path: Path, template: str, line: int) -> None:
    (tmp_path / "page.html").write_text(template, encoding="utf-8")
    with pytest.raises(Broken) as fault:
        rendered(tmp_path)
    assert (fault.value.path, fault.value.line) == ("theme/page.html", line)


def test_a_broken_template_of_a_book_is_a_problem_and_no_traceback(demo, tmp_path: Path, cache: FrameCache) -> None:  # type: ignore[no-untyped-def]
    (tmp_path / "recipe.html").write_text("{{ view.typo }}", encoding="utf-8")
    problems = Problems()
    plan = demo.plan("quillmere-best")
    files = make_site(demo.book, (plan,), problems, cache, theme=tmp_path)
    assert "quillmere-best.html" not in files
    assert {"index.html", "quillmere-best/card.html", "quillmere-best/working.html"} <= set(files)
    assert [str(problem.place) for problem in problems] == ["theme/recipe.html:1:1"]


def test_an_authors_words_are_escaped() -> None:
    page = rendered()
    assert "<title>A &lt;title&gt;</title>" in page
    assert 'content="A &#34;description&#34;"' in page


def test_our_themes_are_found_in_a_checkout() -> None:
    assert (themes() / "base.html").is_file()
