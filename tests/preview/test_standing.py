"""What a preview reads anew after a save, and that it comes to what a build from nothing would make."""

from __future__ import annotations

import shutil
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
import the_demo

from gristbook.charts.caches import FrameCache
from gristbook.model.paths import FEED, ROBOTS, SITEMAP
from gristbook.preview import standing
from gristbook.preview.standing import Standing, sources
from gristbook.site import press
from gristbook.site.beer import known

from .conftest import MILD

ABOUT_ALL = {FEED, SITEMAP, ROBOTS}
"""Files for the book once it is published, which no preview makes."""


def edited(path: Path, *changes: tuple[str, str]) -> None:
    text = path.read_text("utf-8")
    for was, now in changes:
        assert was in text, was
        text = text.replace(was, now)
    path.write_text(text, "utf-8")


def laid(path: Path, text: str) -> None:
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, "utf-8")


SAVES: dict[str, Callable[[Path], object]] = {
    "a weight": lambda book: edited(book / "mild.md", ("2.4 kg", "2.5 kg")),
    "lines before the others": lambda book: edited(book / "mild.md", ("malts:", "# a remark\n# of two lines\nmalts:")),
    "a warning": lambda book: edited(book / "mild.md", ("Fuggle", "Marsh Warbler")),
    "another yeast": lambda book: edited(
        book / "mild.md", ("7 g english ale yeast, attenuative", "11 g german lager yeast")
    ),
    "a link that leads nowhere": lambda book: edited(book / "mild.md", ("afternoon", "[afternoon](nowhere.md)")),
    "a brewhouse": lambda book: edited(book / "book.yaml", ("boil-off: 3 L/h", "boil-off: 3.5 L/h")),
    "a pantry": lambda book: laid(book / "pantry" / "hops.yaml", "- name: Marsh Warbler\n  alpha: 6 %\n"),
    "a page": lambda book: laid(book / "pages" / "about.md", "---\ntitle: About\n---\nThe mill.\n"),
    "a style sheet": lambda book: laid(book / "theme" / "style.css", '{% include "!style.css" %}\np { margin: 0 }\n'),
    "a template": lambda book: laid(
        book / "theme" / "recipe.html",
        '{% extends "!recipe.html" %}{% block head %}{{ super() }}<meta name="author">{% endblock %}\n',
    ),
    "a new recipe": lambda book: laid(book / "first.md", MILD.replace("Mild", "First")),
    "another name": lambda book: (book / "first.md").rename(book / "last.md"),
    "a recipe less": lambda book: (book / "last.md").unlink(),
    "a brew less": lambda book: next(book.glob("*/*.md")).unlink(),
}
"""Saves, one after another."""


def slip(book: Path) -> None:
    edited(book / "mild.md", ("mash: ", "mahs: "))


def test_after_every_save_each_page_is_what_a_build_from_nothing_makes(
    book: Path, built: Callable[[], object], cache: FrameCache
) -> None:
    now = Standing(book, sources(book), cache)
    for what, save in SAVES.items():
        save(book)
        now, wanted = Standing(book, sources(book), cache, now), built()
        assert list(map(str, now.problems())) == list(wanted.problems), what
        for path in sorted(wanted.files.keys() - ABOUT_ALL, reverse=True):
            assert now.site.file(path) == wanted.files[path], (what, path)


@pytest.mark.slow
def test_each_file_of_the_demo_is_the_same_whichever_is_asked_for_first(
    demo_site: the_demo.Site, cache: FrameCache
) -> None:
    site = Standing(the_demo.DEMO, sources(the_demo.DEMO), cache).site
    asked = sorted(demo_site.files.keys() - ABOUT_ALL, key=lambda path: path[::-1])
    assert [path for path in asked if site.file(path) != demo_site.files[path]] == []


@pytest.fixture
def work(monkeypatch: pytest.MonkeyPatch) -> Counter[str]:
    """How often the costly steps were taken."""
    counted: Counter[str] = Counter()

    def count(module: object, name: str) -> None:
        real = getattr(module, name)

        def counting(*given: object, **more: object) -> object:
            counted[name] += 1
            return real(*given, **more)

        monkeypatch.setattr(module, name, counting)

    for name in ("read_shell", "plan_recipe"):
        count(standing, name)
    count(known, "beer_of")
    count(press, "journal")
    return counted


@pytest.mark.parametrize(
    ("save", "steps"),
    [
        ("a weight", {"plan_recipe": 1, "beer_of": 1}),
        ("a slip", {}),
        ("a page", {"read_shell": 1}),
        ("a style sheet", {"read_shell": 1}),
        ("a brewhouse", {"read_shell": 1, "plan_recipe": 4, "beer_of": 4, "journal": 1}),
    ],
)
def test_only_what_a_save_can_have_changed_is_worked_out(
    book: Path, cache: FrameCache, work: Counter[str], save: str, steps: dict[str, int]
) -> None:
    for name in ("first", "second", "third"):
        laid(book / f"{name}.md", MILD.replace("Mild", name.title()))
    for path in book.glob("*.md"):
        if path.stem not in ("mild", "first", "second", "third"):
            shutil.rmtree(path.with_suffix(""), ignore_errors=True)
            path.unlink()
    before = Standing(book, sources(book), cache)
    work.clear()
    (slip if save == "a slip" else SAVES[save])(book)
    Standing(book, sources(book), cache, before)
    assert work == steps
