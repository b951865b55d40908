"""A check finds all that a build finds wrong, and makes no page for it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, is_dataclass
from inspect import getmembers
from pathlib import Path

import pytest
import the_demo
from PIL import Image

from gristbook import cli
from gristbook.model.paths import DRESS
from gristbook.problems import Problems
from gristbook.site.beer.known import Known
from gristbook.site.disk.files import Files
from gristbook.site.outline import outline
from gristbook.site.templates import _words_of_views

from .conftest import Ran


def write(book: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        path = book / name
        path.parent.mkdir(parents=True, exist_ok=True)
        before = path.read_text("utf-8") if text.startswith("+") else ""
        path.write_text(before + text.removeprefix("+"), encoding="utf-8")


LEARNING = "---\ntitle: Of hops\nsummary: What they do.\n---\n"

HOSTILE: dict[str, tuple[dict[str, str], str]] = {
    "a broken link": ({"bitter.md": "+See [it](no-such.md) and ![](none.png).\n"}, "a link that leads nowhere"),
    "a part that its page does not have": ({"bitter.md": "+\n## A look\n\n[see](#a-lok)\n"}, 'did you mean "a-look"?'),
    "a missing picture": ({"bitter.md": "+![a hop](hop.jpg)\n"}, "a picture that is not there"),
    "a picture from elsewhere": ({"mild.md": "+![a hop](https://example.org/hop.jpg)\n"}, "from elsewhere"),
    "a picture of another kind": ({"mild.md": "+![a](a.svg)\n", "a.svg": "<svg/>"}, "of a kind that is not shown"),
    "a picture that is none": ({"mild.md": "+![a](a.png)\n", "a.png": "GIF89a"}, "cannot be read"),
    "an undefined name in a template": ({"theme/recipe.html": "<p>\n{{ nonsense }}\n"}, "theme/recipe.html:2:1"),
    "an undefined name in a part": (
        {"theme/entry.html": "{{ entry.title }} {{ enrty.title }}"},
        'did you mean "entry"',
    ),
    "a word that no view has": ({"theme/recipe.html": "{{ view.hopps }}"}, 'no view has "hopps"'),
    "a word that no site has": ({"theme/index.html": "{{ site.titel }}"}, 'did you mean "title"'),
    "a style sheet that asks for a page": ({"theme/style.css": "{{ view.title }}"}, "theme/style.css:1:1"),
    "no such filter": ({"theme/page.html": "{{ view.title | capitol }}"}, 'did you mean "capital"'),
    "no such test": ({"theme/page.html": "{% if view is hoppy %}{% endif %}"}, 'there is no test "hoppy"'),
    "a tag that is never closed": ({"theme/page.html": "\n{% if view %}"}, "theme/page.html:2:1"),
    "a parent that is not there": ({"theme/page.html": '{% extends "bass.html" %}'}, 'did you mean "base.html"'),
    "a part that is not there": ({"theme/page.html": '{% include "parts/a.html" %}'}, 'no template "parts/a.html"'),
    "a template that extends itself": ({"theme/recipe.html": '{% extends "recipe.html" %}'}, '"!recipe.html"'),
    "a block that has moved": (
        {"theme/recipe.html": '{% extends "!recipe.html" %}{% block water %}x{% endblock %}'},
        '"recipe.html" has no block "water", so it shows nowhere; expected it in study.html',
    ),
    "a block that is nowhere": (
        {"theme/recipe.html": '{% extends "!recipe.html" %}\n{% block titel %}x{% endblock %}'},
        'warning: "recipe.html" has no block "titel", so it shows nowhere; did you mean "title"?',
    ),
    "a template by a wrong name": ({"theme/recipie.html": "x"}, 'asks for this template; did you mean "recipe.html"?'),
    "a style sheet by a wrong name": ({"theme/exta.css": ""}, 'asks for this style sheet; did you mean "extra.css"?'),
    "a part that nothing takes in": ({"theme/recipe/watr.html": "x"}, 'did you mean "recipe/water.html"?'),
    "one block twice": ({"theme/page.html": "{% block a %}{% endblock %}{% block a %}{% endblock %}"}, "second block"),
    "a misspelt water": ({"book.yaml": "+  bank:\n    batch: 20 L\n    water: Quilmere\n"}, 'unknown water "Quilmere"'),
    "a wrong name in a chapter": ({"book.yaml": "+chapters:\n  - title: All\n    recipes: [biter]\n"}, '"bitter"'),
    "a learning page in no group": ({"theme/learning/of-hops.md": LEARNING}, "stands in no group"),
    "a learning page that leads nowhere": (
        {
            "theme/learning/of-hops.md": LEARNING + "[there](nowhere.md)\n",
            "theme/learning/contents.yaml": "- title: All\n  pages: [of-hops]\n",
        },
        "theme/learning/of-hops.md:5:9: warning: a link that leads nowhere",
    ),
    "a page called as a recipe": ({"pages/bitter.md": "---\ntitle: B\n---\n"}, "is made twice"),
    "a page called as one of ours": ({"pages/sources.md": "---\ntitle: S\n---\n"}, "sources"),
    "a recipe called as another": ({"Mild.md": "---\ntitle: M\n---\n"}, "malts"),
    "a file of the theme in a page's place": (
        {"theme/bitter/figures.json": "{}"},
        '"bitter/figures.json" is made twice',
    ),
    "a calendar in the theme": ({"theme/bitter/colour.svg": "<svg/>"}, '"bitter/colour.svg" is made twice'),
    "a misspelt hop": (
        {"mild.md": "+", "bitter.md": "---\ntitle: B\nbatch: 20 L\nhops: 3 g Fugle, 1 min\n---\n"},
        "Fuggle",
    ),
    "a batch of nothing": ({"bitter/2026-03-14.md": "---\nplan: 3\n---\n[x](y.md)\n"}, "bitter/2026-03-14.md"),
}


def problems_of(run: Callable[..., Ran], *words: str) -> tuple[int, list[str]]:
    ran = run(*words)
    return ran.status, [line for line in ran.err.splitlines() if line != "nothing was written"]


@pytest.mark.parametrize("slip", HOSTILE)
def test_a_check_finds_what_a_build_finds(slip: str, book: Path, run: Callable[..., Ran]) -> None:
    files, told = HOSTILE[slip]
    if not any("learning" in name for name in files):
        write(book, {"book.yaml": "learning: no\n" + (book / "book.yaml").read_text("utf-8")})
    write(book, files)
    status, checked = problems_of(run, "check", "book")
    built = problems_of(run, "build", "book", "--out", "out")
    assert (status, checked) == built
    assert told in "\n".join(checked)


VISIT = """\
---
title: Visit
---

# The way

See [the mill](#the-mill), [the
way](#The%20way), [the bitter](../bitter.md#method), [its story](../bitter.md#storey), `[no](#link)`,
[a map][map], ![a hop](hop.png) and [mash](../theme/learning/malt-to-gravity.md#no-such-part).

[map]: nowhere.md "The map"
"""


def test_a_link_is_told_where_it_stands(book: Path, run: Callable[..., Ran]) -> None:
    write(book, {"pages/visit.md": VISIT, "bitter.md": "+\n## Story\n\n[Where](../pages/visit.md#the-way)\n"})
    _, checked = problems_of(run, "check", "book")
    told = [line.removeprefix("book/pages/visit.md:").split("; expected")[0] for line in checked if "visit.md:" in line]
    missing = "warning: a link to a part that its page does not have in"
    assert told == [
        f'7:16: {missing} "#the-mill"',
        f'8:6: {missing} "#The%20way"; did you mean "the-way"?',
        f'8:66: {missing} "../bitter.md#storey"; did you mean "story"?',
        '9:24: error: a picture that is not there in "hop.png"',
        f'9:44: {missing} "../theme/learning/malt-to-gravity.md#no-such-part"',
        '11:8: warning: a link that leads nowhere in "nowhere.md"',
    ]
    assert len(checked) == len(told) + 2


def test_what_a_template_of_the_author_s_calls_a_part_may_be_linked_to(book: Path, run: Callable[..., Ran]) -> None:
    template = "<p id='there'>{{ view.title }}</p>"
    write(book, {"theme/page.html": template, "pages/a.md": "---\ntitle: A\n---\n[b](#there) [c](#top) [d](#ther)\n"})
    _, checked = problems_of(run, "check", "book")
    assert [line.partition(" in ")[2] for line in checked] == ['"#ther"; expected one of main', ""]


def test_a_check_finds_all_slips_at_once(book: Path, run: Callable[..., Ran]) -> None:
    for files, _ in HOSTILE.values():
        write(book, files)
    status, checked = problems_of(run, "check", "book")
    assert (status, checked) == problems_of(run, "build", "book", "--out", "out")
    assert len(checked) > 15


SOUND: dict[str, dict[str, str]] = {
    "no theme": {},
    "a page of one's own": {"pages/visit.md": "---\ntitle: Visit\n---\nSee [the bitter](../bitter.md).\n"},
    "a laid-over page": {"theme/recipe.html": '{% extends "!recipe.html" %}{% block title %}x{% endblock %}'},
    "a laid-over entry": {
        "theme/entry.html": "<a href='{{ to(entry.path) }}'>{{ entry.title | plain }}</a>{{ view is none }}"
    },
    "names of its own": {
        "theme/base.html": '{% extends "!base.html" %}{% set motto = site.title %}',
        "theme/page.html": '{% extends "base.html" %}{% block main %}{{ motto }}'
        "{% if nobody is defined %}x{% endif %}{% endblock %}",
        "pages/visit.md": "---\ntitle: Visit\n---\n",
    },
    "its own parts": {
        "theme/page.html": '{% from "own/macros.html" import said as told with context %}'
        '{% include ["own/none.html", "own/a.html"] %}{% include "own/never.html" ignore missing %}{{ told(1) }}'
        "{% for a, b in [(1, 2)] %}{{ loop.index + a }}{% endfor %}",
        "theme/own/macros.html": "{% macro said(what, more=2) %}{{ what }}{{ more }}{{ varargs }}{% endmacro %}",
        "theme/own/a.html": "{% set ns = namespace(n=1) %}{% set ns.n = 2 %}{{ ns.n }}{{ view.title | default('') }}",
        "pages/visit.md": "---\ntitle: Visit\n---\n",
    },
    "a style sheet beside ours": {
        "theme/extra.css": '@import "own/letters.css";\na { color: red }',
        "theme/own/letters.css": "b { color: red }",
    },
    "a style sheet over ours": {"theme/style.css": '{% include "!style.css" %}\na { color: red }'},
}


@pytest.mark.parametrize("kind", SOUND)
def test_a_sound_theme_is_sound_to_both(kind: str, book: Path, run: Callable[..., Ran]) -> None:
    write(book, {"book.yaml": "+learning: no\naddress: https://example.org/\n", **SOUND[kind]})
    checked, built = problems_of(run, "check", "book"), problems_of(run, "build", "book", "--out", "out")
    assert checked == built == (cli.FINE, [])


@dataclass(frozen=True)
class Made:
    """The demo as a check and as a build see it: what each found wrong, the files that were claimed and made."""

    checked: Problems
    built: the_demo.Site
    claimed: Files


@pytest.fixture(scope="module")
def demo(demo_site: the_demo.Site) -> Made:
    checked, done, plans = Problems(), the_demo.done(), tuple(the_demo.plans().values())
    files = Files(checked)
    beers = [Known(plan, done.book) for plan in plans]
    outline(done.book, beers, [it.batch for it in done.batches], files, checked, folder=the_demo.DEMO)
    return Made(checked, demo_site, files)


def test_the_same_holds_for_the_demo_and_every_file_was_foreseen(demo: Made) -> None:
    assert list(demo.checked) == list(demo.built.problems) == []
    unforeseen = {path for path in demo.built.files if not demo.claimed.is_claimed(path)}
    shared = ("ingredients/", "styles/", "brewhouses/")
    ours = {*DRESS, "find.html", "sitemap.xml", "robots.txt"}
    assert {path for path in unforeseen if not path.startswith(shared)} <= ours


def test_a_check_knows_every_word_of_every_view(demo: Made) -> None:
    assert len(demo.built.views) > 12
    for _, view in demo.built.views:
        assert is_dataclass(view)
        words = {field.name for field in fields(view)}
        words |= {name for name, what in getmembers(view) if isinstance(what, property)}
        assert words <= _words_of_views(), view


def test_a_check_runs_nothing_of_a_theme(book: Path, run: Callable[..., Ran]) -> None:
    bombs = "{{ 9 ** 9 ** 9 ** 9 }}{{ 'x' * 10 ** 12 }}{{ 'x' | center(10 ** 12) }}{% set a = 10 ** 10 ** 10 %}"
    reach = "{{ ''.__class__.__mro__[1].__subclasses__() }}{{ to.__globals__ }}"
    write(book, {"theme/recipe.html": bombs + reach})
    assert run("check", "book").status == cli.FINE


def test_a_check_draws_nothing_and_writes_nothing(book: Path, run: Callable[..., Ran]) -> None:
    Image.new("RGB", (4, 3)).save(book / "hop.png")
    write(book, {"bitter.md": "+![a hop](hop.png)\n"})
    before = sorted(path for path in book.rglob("*"))
    assert run("check", "book").status == cli.FINE
    assert sorted(path for path in book.rglob("*")) == before


def test_a_file_of_a_theme_that_is_not_there_is_a_problem_to_both(book: Path, run: Callable[..., Ran]) -> None:
    (book / "theme").mkdir()
    (book / "theme" / "logo.png").symlink_to("/proc/self/mem")  # a file that nobody can read, not even root
    status, checked = problems_of(run, "check", "book")
    assert (status, checked) == problems_of(run, "build", "book", "--out", "out")
    assert "book/theme/logo.png:1:1: error: this file cannot be read" in "\n".join(checked)
