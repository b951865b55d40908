"""The pages of the beers: each as it is written and in every edition, with its card and its working."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.site.beer.brews import FROM, Brew, OtherBrew
from gristbook.site.beer.buying_page import buying_page
from gristbook.site.beer.card_page import card_page
from gristbook.site.beer.day_page import day_page
from gristbook.site.beer.editions import changes, comparison
from gristbook.site.beer.known import Known
from gristbook.site.beer.recipe_page import recipe_page
from gristbook.site.beer.structured import recipe_data
from gristbook.site.beer.study_page import StudyPage, study_page
from gristbook.site.brew.brews_page import brews_here
from gristbook.site.pages import Link, Page, of_recipe
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.site.working.worksheet import Worksheet


@dataclass(frozen=True, slots=True)
class WorkingPage:
    """The working of a beer in every kettle, and what it is of."""

    title: Markup
    page_words: str
    worksheet: Worksheet


def beer_pages(printing: Printing, beers: Iterable[str]) -> Iterator[Page]:
    """Every page of some beers, by their addresses."""
    for known in (printing.beers[slug] for slug in beers):
        before, after = (printing.beers.get(slug) for slug in printing.beside[known.slug])
        beer, home, recipe = known.beer, known.beer.home, known.plan.recipe
        beside = {at: (brews_here(known, at, printing), comparison(beer, at)) for at in (home.at.page, home.at.figures)}
        view = recipe_page(home, printing, *beside[home.at.page], _link(before), _link(after))
        title, summary = plain(recipe.title), plain(recipe.summary)
        yield printing.page(
            *(home.at.page, "recipe.html", title, summary, view),
            place=recipe.place,
            data=recipe_data(home, printing.book, printing.written.texts[home.at.page]),
            figure=home.shown(home.at.page),
        )
        study = study_page(home, printing, *beside[home.at.figures])
        yield from _besides(printing, home, study, title, summary)
        working = WorkingPage(line(recipe.title), "the beer’s page", beer.worksheet)
        about = f"How every figure of {title} is worked out."
        yield printing.page(home.at.working, "working.html", f"{title}, working", about, working, place=recipe.place)
        for edition in beer.editions:
            yield from _edition_pages(printing, known, edition)


def _link(beer: Known | None) -> Link | None:
    return Link(of_recipe(beer.slug).page, plain(beer.title)) if beer else None


def _edition_pages(printing: Printing, beer: Known, edition: OtherBrew) -> Iterator[Page]:
    brew, made, recipe = edition.brew, edition.made.edition, edition.brew.plan.recipe
    beside = {
        at: (brews_here(beer, at, printing, made.slug), changes(beer.beer, edition, at))
        for at in (brew.at.page, brew.at.figures)
    }
    page = recipe_page(brew, printing, *beside[brew.at.page])
    study = study_page(brew, printing, *beside[brew.at.figures])
    title = f"{plain(recipe.title)}, {edition.words}"
    summary = f"{title}: {plain(recipe.summary)}".removesuffix(": ")
    yield printing.page(
        *(brew.at.page, "edition.html", title, summary, page),
        place=recipe.place,
        us_first=made.us,
        figure=brew.shown(brew.at.page),
    )
    yield from _besides(printing, brew, study, title, summary, edition)


def _besides(
    printing: Printing, brew: Brew, study: StudyPage, title: str, summary: str, edition: OtherBrew | None = None
) -> Iterator[Page]:
    """The page for the day of a brew, its figures, what to buy for it, and its card."""
    us, words = (edition.made.edition.us, edition.words) if edition else (None, "")
    vessels = FROM[edition.made.edition.source] if edition else ""
    place, at = brew.plan.recipe.place, brew.at.day
    day, about = day_page(brew, printing, edition), f"The brew day of {title}, step by step."
    yield printing.page(
        *(at, "day.html", f"{title}, brew day", about, day), place=place, us_first=us, figure=brew.shown(at)
    )
    about, at = f"Every figure of {title}, every chart and table.", brew.at.figures
    yield printing.page(
        *(at, "study.html", f"{title}, figures", about, study), place=place, us_first=us, figure=brew.shown(at)
    )
    buy, about, at = buying_page(brew, printing, edition), f"What to buy for {title}, with boxes to tick.", brew.at.buy
    yield printing.page(at, "buy.html", f"{title}, what to buy", about, buy, place=place, us_first=us)
    card, at = card_page(brew, vessels, words), brew.at.card
    figure = brew.shown(at)
    yield printing.page(at, "card.html", f"{title}, card", summary, card, place=place, us_first=us, figure=figure)
