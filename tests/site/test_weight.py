"""How much a phone has to load, as it comes over the wire (gzip, RFC 1952, at the level that servers use)."""

from __future__ import annotations

import gzip
from collections.abc import Mapping
from dataclasses import replace
from posixpath import dirname, join, normpath
from random import Random

import the_demo

from gristbook.sheet.value import Value
from gristbook.site import pages as at
from gristbook.site.beer.known import Known
from gristbook.site.book.index_page import index_page
from gristbook.site.book.listings import Listed, listings
from gristbook.site.pages import Page, site_of
from gristbook.site.render import Renderer
from gristbook.site.shelf.larder import stocked
from gristbook.targets.figures import Plan

LEVEL = 6
DRESS = ("style.css", "units.js", "narrow.js", "icon.svg")
FRONT_PAGE, RECIPE_PAGE = 200_000, 150_000
WORKING_PAGE, HALF_OF_THE_WORKINGS, WHOLE_DEMO = 250_000, 156_000, 30_000_000


def weight(*files: bytes) -> int:
    return sum(len(gzip.compress(data, LEVEL, mtime=0)) for data in files)


def other(plan: Plan, number: int) -> Plan:
    """Another beer of the same kind: its own name, its own summary and its own figures."""
    draw = Random(number)

    def words(count: int) -> str:
        letters = "abcdefghiklmnoprstuvw"
        return " ".join("".join(draw.choices(letters, k=draw.randint(3, 9))) for _ in range(count))

    def moved(value: Value) -> Value:
        return replace(value, number=value.number * draw.uniform(0.8, 1.2))

    figures = plan.figures
    return replace(
        plan,
        recipe=replace(plan.recipe, slug=words(2).replace(" ", "-"), title=words(3), summary=words(18)),
        figures=replace(
            figures,
            colour=replace(figures.colour, srm=moved(figures.colour.srm)),
            bitterness=replace(figures.bitterness, total=moved(figures.bitterness.total)),
            fermentation=replace(figures.fermentation, abv=moved(figures.fermentation.abv)),
        ),
    )


def test_the_front_page_of_a_hundred_beers_is_light(demo) -> None:  # type: ignore[no-untyped-def]
    plans = [other(demo.plans[number % len(demo.plans)], number) for number in range(100)]
    renderer = Renderer(site_of(demo.book, {}, things={}, styles={}))
    book = replace(demo.book, chapters=(), recipes=tuple(plan.recipe for plan in plans))
    page = renderer.page(
        Page(at.INDEX, "index.html", "A book", "A book", index_page(book, [Known(plan, demo.book) for plan in plans]))
    )
    assert page.count(b"<article class=entry") == 100
    assert weight(page, *(demo.files[name] for name in DRESS)) <= FRONT_PAGE


def test_the_front_page_of_two_hundred_beers_with_all_that_narrows_it_is_light_as_it_lies_on_a_disk(demo) -> None:  # type: ignore[no-untyped-def]
    """Each as often in the lists of ingredients and styles as a beer of the demo, and with editions as there."""
    own = [plan.recipe.slug for plan in demo.plans]
    plans = [other(demo.plans[number % len(own)], number) for number in range(200)]
    likes = {plan.recipe.slug: own[number % len(own)] for number, plan in enumerate(plans)}
    beers = {plan.recipe.slug: Known(plan, demo.book) for plan in demo.plans}
    lists = tuple(
        replace(
            it, groups=tuple(replace(group, rows=tuple(among(row, likes) for row in group.rows)) for group in it.groups)
        )
        for it in listings([*beers.values()], stocked(demo.book, [*beers.values()]))
    )
    book = replace(demo.book, chapters=(), recipes=tuple(plan.recipe for plan in plans))
    view = index_page(book, [alike(plan, beers[likes[plan.recipe.slug]]) for plan in plans], lists)
    page = Renderer(site_of(demo.book, {}, things={}, styles={})).page(Page(at.INDEX, "index.html", "A", "A", view))
    assert page.count(b"<article class=entry") == 200
    assert page.count(b'<option class="name"') > 30
    assert len(page) <= 150_000


def alike(plan: Plan, like: Known) -> Known:
    """A beer with the editions of another, at addresses of its own."""
    it = Known(plan, the_demo.book())
    index_page(the_demo.book(), [like])
    for asked, answer in like.answers.items():
        if asked[1] in ("_keys", "_instead"):
            it.answers[asked] = (
                [(key, path.replace(like.slug, it.slug)) for key, path in answer] if asked[1] == "_instead" else answer
            )
    return it


def among(listed: Listed, likes: Mapping[str, str]) -> Listed:
    """The same choice, to which all answer that are like a beer that answers to it."""
    return replace(listed, beers=frozenset(slug for slug, like in likes.items() if like in listed.beers))


def test_a_recipe_with_its_pictures_is_light(demo) -> None:  # type: ignore[no-untyped-def]
    for plan in demo.plans:
        path = f"{plan.recipe.slug}.html"
        pictures = {normpath(join(dirname(path), image["src"])) for image in demo.pages[path].find_all("img")}
        pages = (demo.files[name] for name in (path, *DRESS))
        loaded = weight(*pages) + sum(len(demo.files[picture]) for picture in pictures)
        assert loaded <= RECIPE_PAGE, (path, loaded)


def test_a_beer_on_the_front_page_says_what_a_reader_chooses_by(demo) -> None:  # type: ignore[no-untyped-def]
    for entry in demo.pages["index.html"].select(".entry"):
        plan = next(plan for plan in demo.plans if plan.recipe.title in entry.h3.get_text().replace("’", "'"))
        told = {line.dt.get_text(): line.dd.get_text() for line in entry.select(".brief div")}
        assert entry.svg["aria-hidden"] == "true"  # the colour stands beside it, in words
        assert {"strength", "bitterness", "colour"} <= set(told)
        assert ("ready in" in told) == (plan.figures.packaging is not None)
        if "ready in" in told:
            assert told["ready in"].split()[-1] in ("week", "weeks", "months")


def test_a_working_of_all_kettles_and_the_whole_book_stay_light(demo) -> None:  # type: ignore[no-untyped-def]
    """As they lie on a disk: a page of working, half of those, and all of the demo, where a brew has five pages."""
    workings = sorted(len(data) for path, data in demo.files.items() if "working.html" in path and len(data) > 4096)
    assert len(workings) > 35
    assert workings[-1] <= WORKING_PAGE
    assert workings[len(workings) // 2] <= HALF_OF_THE_WORKINGS
    assert sum(map(len, demo.files.values())) <= WHOLE_DEMO
