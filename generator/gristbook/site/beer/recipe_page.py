"""What the page of a recipe is given: what one reads before one brews. All its figures stand on a page of their own."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount_of
from gristbook.site.band import Band, band
from gristbook.site.beer.brews import Brew
from gristbook.site.beer.buying_page import chapters_of
from gristbook.site.beer.doing import in_stages
from gristbook.site.beer.editions import Changes, Comparison
from gristbook.site.beer.ingredients import Ingredients, ingredients
from gristbook.site.beer.pictures import Picture, pictures
from gristbook.site.brew.brews_page import Brewed
from gristbook.site.figures import Sentence
from gristbook.site.learn.learning_pages import explained
from gristbook.site.pages import Link
from gristbook.site.printing import Printing
from gristbook.site.prose import by_headings, line
from gristbook.site.words import balance_words, colour_word, ready_words
from gristbook.targets.advice.advice import Advice
from gristbook.targets.advice.cautions import in_short
from gristbook.targets.advice.judgement import AT_ONCE
from gristbook.targets.advice.water_rows import WATER
from gristbook.targets.buying.cost import Cost
from gristbook.targets.buying.instead import Instead, of_grist, of_hops
from gristbook.targets.figures import Plan

OF_THE_WATER = frozenset(row.key for row in WATER)
"""Advice that the water's own section gives, so that no page says it twice."""

_HEADING = re.compile("<h2[^>]*>(.*?)</h2>", re.DOTALL)

SHORT_STORY = 900
"""An author's story of so many letters is told in one, a longer one up to its second heading."""


@dataclass(frozen=True, slots=True)
class Glance:
    """A figure of what one wants to know first, what it is of, and a word on it."""

    term: str
    figure: Value
    words: Sentence = ()


@dataclass(frozen=True, slots=True)
class Swap:
    """So much of another thing may be taken instead, and what that changes."""

    name: str
    amount: Amount
    words: Sentence


@dataclass(frozen=True, slots=True)
class RecipePage:
    """A recipe as its page tells it: with ``editions`` beside it, or else with its ``changes`` where it is one.

    ``glance`` are the figures that one asks for first, ``outcome`` those of the beer that it becomes. ``care`` is what
    can maim or kill, and no more. Of the ``prose``, ``more_prose`` is told to those who ask, by its ``more_titles``;
    both have each part by the anchor of its heading, so that a theme can set it elsewhere, as ``pictures`` has each by
    its name.
    ``instead`` are the lines that something may be taken in place of, and what. ``remarks`` are what a teacher would
    say but of the water, each with what is usual, and so many ``at_once``. ``lessons`` are those that it shows.
    """

    brew: Brew
    title: Markup
    summary: Markup
    band: Band
    glance: tuple[Glance, ...]
    care: tuple[str, ...]
    prose: Mapping[str, Markup]
    more_prose: Mapping[str, Markup]
    more_titles: tuple[Markup, ...]
    ingredients: Ingredients
    instead: tuple[tuple[str, tuple[Swap, ...]], ...]
    method: tuple[tuple[str, Sentence], ...]
    outcome: tuple[Glance, ...]
    cost: Sentence
    remarks: tuple[tuple[Advice, Sentence], ...]
    at_once: int
    pictures: Mapping[str, Picture]
    editions: Comparison | None
    changes: Changes | None
    brewed: Brewed | None
    chapters: tuple[Link, ...]
    before: Link | None
    after: Link | None
    learn: Mapping[str, tuple[Link, ...]]
    lessons: tuple[tuple[str, Link], ...]


def recipe_page(
    brew: Brew,
    printing: Printing,
    brewed: Brewed | None,
    beside: Comparison | Changes | None,
    before: Link | None = None,
    after: Link | None = None,
) -> RecipePage:
    """The page of one brew, its words linked to the glossary, with its editions beside it or what it changes.

    What the author tells of a beer is told of the recipe itself only.
    """
    plan, recipe, own = brew.plan, brew.plan.recipe, not isinstance(beside, Changes)
    prose, more_prose = parted(by_headings(printing.written.texts[brew.at.page]) if own else {})
    return RecipePage(
        brew=brew,
        title=line(recipe.title),
        summary=line(recipe.summary),
        band=band(plan.figures.colour.srm.number),
        glance=tuple(_glance(plan)),
        care=in_short({step.kind for step in brew.steps}, plan),
        prose=prose,
        more_prose=more_prose,
        more_titles=tuple(map(Markup, _HEADING.findall("".join(more_prose.values())))),
        ingredients=ingredients(plan),
        instead=tuple(_instead(plan, printing)),
        method=tuple(in_stages(plan, brew.steps)),
        outcome=tuple(_outcome(plan)),
        cost=_cost(plan.cost) if plan.cost is not None else (),
        remarks=tuple((it, _usual(it)) for it in brew.judgement if it.meant or it.key not in OF_THE_WATER),
        at_once=AT_ONCE,
        pictures=pictures(plan, printing.frames, ("balance", "hops")),
        editions=beside if isinstance(beside, Comparison) else None,
        changes=beside if isinstance(beside, Changes) else None,
        brewed=brewed,
        chapters=chapters_of(brew, printing),
        before=before,
        after=after,
        learn=explained(printing.book.learning),
        lessons=printing.examples.get(brew.at.page, ()),
    )


def parted(prose: Mapping[str, Markup]) -> tuple[Mapping[str, Markup], Mapping[str, Markup]]:
    """An author's story up to its second heading, and the rest; a short one whole.

    >>> story = {"": Markup("<p>A</p>"), "b": Markup("<h2>B</h2>"), "d": Markup("<h2>D</h2>")}
    >>> parted(story) == (story, {})
    True
    """
    if sum(map(len, prose.values())) <= SHORT_STORY:
        return prose, {}
    parts = list(prose.items())
    second = 2 if "" in prose else 1
    return dict(parts[:second]), dict(parts[second:])


def _instead(plan: Plan, printing: Printing) -> Iterator[tuple[str, tuple[Swap, ...]]]:
    """What may be taken in place of each line, its numbers as text: they are not of the beer as it is."""
    figures, larder = plan.figures, printing.book.larder
    names = [it.malt.name for it in figures.grist.malts] + [it.sugar.name for it in figures.grist.sugars]
    hops = [line.hop.name for line in figures.bitterness.hops]
    for name, found in (
        *zip(names, of_grist(plan, larder), strict=True),
        *zip(hops, of_hops(plan, larder), strict=True),
    ):
        if found:
            yield name, tuple(map(_swap, found))


def _swap(it: Instead) -> Swap:
    return Swap(it.name, _as_text(it.mass), tuple(_as_text(p) if isinstance(p, Value) else p for p in it.words))


def _as_text(value: Value) -> Amount:
    return amount_of(value.number, value.unit, worked_out=True)


def _glance(plan: Plan) -> Iterator[Glance]:
    """The figures that one asks for first."""
    figures, packaging = plan.figures, plan.figures.packaging
    srm, bitter = figures.colour.srm, figures.bitterness
    primed: Sentence = ("once primed ", packaging.packaged_abv) if packaging and packaging.sugar is not None else ()
    yield Glance("Strength", figures.fermentation.abv, primed or ("alcohol",))
    yield Glance("Bitterness", bitter.total, (balance_words(bitter.balance.number),))
    yield Glance("Colour", srm, (colour_word(srm.number),))
    yield Glance("Makes", figures.volumes.packaged, ("to drink",))
    if packaging:
        yield Glance("Ready", packaging.ready, (f"about {ready_words(packaging.ready.number)}",))


def _outcome(plan: Plan) -> Iterator[Glance]:
    """How the beer should come out, by what one measures or tastes."""
    figures, packaging = plan.figures, plan.figures.packaging
    yield Glance("Original gravity", figures.wort.original)
    yield Glance("Final gravity", figures.fermentation.final)
    yield Glance("Attenuation", figures.fermentation.apparent_attenuation)
    if packaging:
        yield Glance("Gas", packaging.volumes)
    yield Glance("A small bottle", figures.serving.kilocalories)


def _cost(cost: Cost) -> Sentence:
    """The cost of the brew and of a litre of it, or what there is no price for."""
    if cost.total is None or cost.a_litre is None:
        return (f"What it costs is not worked out: no price yet for {', '.join(cost.missing)}.",)
    return "What goes in costs ", cost.total, f" {cost.currency}, ", cost.a_litre, "."


def _usual(advice: Advice) -> Sentence:
    """The usual span in words; a bound that is no bound is left out."""
    if advice.low is not None and advice.high is not None:
        return "usually between ", advice.low, " and ", advice.high
    if advice.low is not None:
        return "usually at least ", advice.low
    return ("usually at most ", advice.high) if advice.high is not None else ("usually none",)
