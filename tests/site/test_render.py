"""Templates: a book's own are laid over ours, may build on them, and are told of when they are broken."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from made_site import make_site

from gristbook.charts.caches import FrameCache
from gristbook.problems import Problems
from gristbook.reading.files import themes
from gristbook.sheet.value import given
from gristbook.site.figures import unlinked
from gristbook.site.pages import Link, Page, Site
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
    assert {"style.css", "units.js", "moved.js", "icon.svg"} <= set(assets)
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


def test_a_template_that_asks_for_a_value_is_given_its_figure_on_the_page_at_hand(tmp_path: Path) -> None:
    mass = given(3.6, "kg", "malt", words="x")
    (tmp_path / "page.html").write_text("{{ view.mass.bare }}|{{ view.mass.href }}|{{ view.said[1][0].bare }}")
    view = {"mass": mass, "said": ("weigh ", (mass,))}
    for figure, href in ((unlinked, ""), (lambda value: replace(unlinked(value), href="there#malt"), "there#malt")):
        page = Page("x.html", "page.html", "", "", view, figure=figure)
        assert Renderer(SITE, tmp_path).page(page).decode() == f"3.6|{href}|3.6"


@pytest.mark.parametrize(
    ("template", "words"),
    [
        ("recipe.html", "{{ view.at.card }} {{ view.style }} {{ view.brewhouse }} {{ view.bitterness.bare }}"),
        ("recipe.html", "{{ view.stamp.mark }} {{ view.gain_in_stand }} {{ view.title }} {{ view.band.id }}"),
        ("edition.html", "{{ view.changes.words }} {{ view.changes.written }} {{ view.changes.recipe }}"),
        ("edition.html", "{% for it in view.changes.choices %}{{ it.path }} {{ it.card }}{% endfor %}"),
        ("card.html", "{{ view.title }} {{ view.recipe }} {{ view.stamp.mark }}"),
        ("card.html", '{{ {"a5": "A5"}[view.paper] }} {{ to(view.brew.at.half_letter) }}'),
        ("ingredient.html", "{{ view.name }} {{ view.also }} {{ view.band }}"),
        ("style.html", "{{ view.name }} {{ view.family }} {{ view.source }}"),
        ("sources.html", "{% for it in view.sources %}{{ it.key }} {{ it.citation }} {{ it.standing }}{% endfor %}"),
    ],
)
def test_a_template_of_an_earlier_version_is_given_what_it_asks_for(  # type: ignore[no-untyped-def]
    demo, tmp_path: Path, cache: FrameCache, template: str, words: str
) -> None:
    (tmp_path / template).parent.mkdir(exist_ok=True)
    (tmp_path / template).write_text(words, encoding="utf-8")
    problems = Problems()
    files = make_site(demo.book, (demo.plan("quillmere-best"),), problems, cache, theme=tmp_path)
    assert [str(problem) for problem in problems if problem.place.path.startswith("theme")] == []
    assert "quillmere-best.html" in files


def test_a_template_is_told_what_a_record_has_that_it_misunderstands(tmp_path: Path) -> None:
    (tmp_path / "page.html").write_text("{{ view.link.adress }}", encoding="utf-8")
    page = Page("x.html", "page.html", "", "", {"link": Link("a.html", "A")})
    with pytest.raises(Broken, match='no Link has "adress"; it has path, words'):
        Renderer(SITE, tmp_path).page(page)
