"""What the page of a recipe is given."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount_of
from gristbook.site.band import Band, band
from gristbook.site.beer.brewday import BrewDay, brew_day
from gristbook.site.beer.brews import Brew
from gristbook.site.beer.editions import Changes, Comparison
from gristbook.site.beer.ingredients import Ingredients, ingredients
from gristbook.site.beer.packing import Packing, packing
from gristbook.site.beer.pictures import Picture, pictures
from gristbook.site.beer.stages import Stage, stages
from gristbook.site.beer.steps import step_in_short
from gristbook.site.beer.tables import ModelTable, Target, model_name, model_tables, targets
from gristbook.site.beer.water import WaterView, water_view
from gristbook.site.brew.brews_page import Brewed
from gristbook.site.figures import Sentence, joined
from gristbook.site.learn.learning_pages import explained
from gristbook.site.pages import Group, Link, chapter_path
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.site.words import balance_words, colour_word, ready_words
from gristbook.targets.advice.advice import Advice
from gristbook.targets.advice.judgement import AT_ONCE
from gristbook.targets.advice.water_rows import WATER
from gristbook.targets.buying.cost import Cost
from gristbook.targets.buying.instead import Instead, of_grist, of_hops
from gristbook.targets.figures import Plan

OF_THE_WATER = frozenset(row.key for row in WATER)
"""Advice that the water's own section gives, so that no page says it twice."""


@dataclass(frozen=True, slots=True)
class Glance:
    """A line of what one wants to know first."""

    term: str
    words: Sentence


@dataclass(frozen=True, slots=True)
class Swap:
    """So much of another thing may be taken instead, and what that changes."""

    name: str
    amount: Amount
    words: Sentence


@dataclass(frozen=True, slots=True)
class RecipePage:
    """A recipe as its page tells it: with ``editions`` beside it, or else with its ``changes`` where it is one.

    ``grist_instead`` and ``hops_instead`` are what may be taken instead of each line of these tables, and what it does.
        ``remarks`` are what a teacher would say but of the water, each with what is usual, and so many ``at_once``.
    """

    brew: Brew
    title: Markup
    summary: Markup
    band: Band
    glance: tuple[Glance, ...]
    prose: Markup
    ingredients: Ingredients
    grist_instead: tuple[tuple[Swap, ...], ...]
    hops_instead: tuple[tuple[Swap, ...], ...]
    water: WaterView
    method: tuple[Stage, ...]
    remarks: tuple[tuple[Advice, Sentence], ...]
    at_once: int
    packing: Packing
    day: BrewDay
    targets: tuple[Group[Target], ...]
    pictures: tuple[Picture, ...]
    bitterness_model: str
    colour_model: str
    model_tables: tuple[ModelTable, ...]
    editions: Comparison | None
    changes: Changes | None
    brewed: Brewed | None
    chapters: tuple[Link, ...]
    before: Link | None
    after: Link | None
    learn: Mapping[str, tuple[Link, ...]]


def recipe_page(
    brew: Brew,
    printing: Printing,
    brewed: Brewed | None,
    beside: Comparison | Changes | None,
    before: Link | None = None,
    after: Link | None = None,
) -> RecipePage:
    """The page of one brew, its words linked to the glossary, with its editions beside it or what it changes.

    What the author tells of a beer, and where that stands in the book, is said of the recipe itself only.
    """
    plan, recipe, own = brew.plan, brew.plan.recipe, not isinstance(beside, Changes)
    holding = (part for part in printing.chapters if own and recipe.slug in part.slugs)
    return RecipePage(
        brew=brew,
        title=line(recipe.title),
        summary=line(recipe.summary),
        band=band(plan.figures.colour.srm.number),
        glance=glance(plan),
        prose=printing.written.texts[brew.at.page] if own else Markup(),
        ingredients=ingredients(plan),
        grist_instead=_swaps(of_grist(plan, printing.book.larder)),
        hops_instead=_swaps(of_hops(plan, printing.book.larder)),
        water=water_view(plan),
        method=tuple(stages(brew.steps, printing.written.desk.glossary.on(brew.at.page))),
        remarks=tuple((it, _usual(it)) for it in brew.judgement if it.meant or it.key not in OF_THE_WATER),
        at_once=AT_ONCE,
        packing=packing(plan),
        day=brew_day(plan),
        targets=targets(plan),
        pictures=pictures(plan, printing.frames),
        bitterness_model=model_name(plan.bitterness_model),
        colour_model=model_name(plan.colour_model),
        model_tables=model_tables(plan),
        editions=beside if isinstance(beside, Comparison) else None,
        changes=beside if isinstance(beside, Changes) else None,
        brewed=brewed,
        chapters=tuple(Link(chapter_path(part.anchor), plain(part.title)) for part in holding),
        before=before,
        after=after,
        learn=explained(printing.book.learning),
    )


def _swaps(lines: tuple[tuple[Instead, ...], ...]) -> tuple[tuple[Swap, ...], ...]:
    """What may be taken instead, its numbers as text: they have no place in the working of the beer as it is."""
    return tuple(
        tuple(
            Swap(it.name, _as_text(it.mass), tuple(_as_text(p) if isinstance(p, Value) else p for p in it.words))
            for it in line
        )
        for line in lines
    )


def _as_text(value: Value) -> Amount:
    return amount_of(value.number, value.unit, worked_out=True)


def glance(plan: Plan) -> tuple[Glance, ...]:
    """The figures that one asks for first, in words and numbers."""
    figures, packaging = plan.figures, plan.figures.packaging
    wort, beer, volumes = figures.wort, figures.fermentation, figures.volumes
    primed = (", ", packaging.packaged_abv, " once it is primed") if packaging and packaging.sugar is not None else ()
    bitter, srm = figures.bitterness, figures.colour.srm
    lines: list[tuple[str, Sentence]] = [
        ("Makes", (volumes.into_fermenter, " into the fermenter, ", volumes.packaged, " to package")),
        ("Strength", (beer.abv, " alcohol by volume", *primed)),
        ("Gravity", (wort.original, ", falling to ", beer.final)),
        ("Bitterness", (bitter.total, f"; {balance_words(bitter.balance.number)}")),
        ("Colour", (f"{colour_word(srm.number)}, ", srm, ", or ", figures.colour.ebc)),
        ("Time", _time(plan)),
    ]
    if packaging:
        ready = packaging.ready
        lines.append(("Ready", (f"in about {ready_words(ready.number)}, ", ready, " from the yeast on")))
    if plan.cost is not None:
        lines.append(("Cost", _cost(plan.cost)))
    return tuple(Glance(term, words) for term, words in lines)


def _cost(cost: Cost) -> Sentence:
    """The cost of the brew and of a litre of it, or what there is no price for."""
    if cost.total is None or cost.a_litre is None:
        return (f"not worked out: no price yet for {', '.join(cost.missing)}",)
    return cost.total, f" {cost.currency} for what goes in, ", cost.a_litre


def _usual(advice: Advice) -> Sentence:
    """The usual span in words; a bound that is no bound is left out."""
    if advice.low is not None and advice.high is not None:
        return "usually between ", advice.low, " and ", advice.high
    if advice.low is not None:
        return "usually at least ", advice.low
    return ("usually at most ", advice.high) if advice.high is not None else ("usually none",)


def _time(plan: Plan) -> Sentence:
    held = joined([step_in_short(step) for step in plan.recipe.ferment], ", then ")
    boil = (plan.recipe.boil, " of boiling") if plan.recipe.boil.number else ("nothing is boiled",)
    return *boil, *(("; ferment ", *held) if held else ())
