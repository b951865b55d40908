"""What the page of a brew's figures is given: all of them, every chart and table, what to look up on the day."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.site.beer.brewday import BrewDay, brew_day
from gristbook.site.beer.brews import Brew
from gristbook.site.beer.editions import Changes, Comparison
from gristbook.site.beer.ingredients import Ingredients, ingredients
from gristbook.site.beer.packing import Packing, packing
from gristbook.site.beer.pictures import Picture, pictures
from gristbook.site.beer.tables import ModelTable, Target, model_name, model_tables, targets
from gristbook.site.beer.water import WaterView, water_view
from gristbook.site.brew.brews_page import Brewed
from gristbook.site.learn.learning_pages import explained
from gristbook.site.pages import Group, Link
from gristbook.site.printing import Printing
from gristbook.site.prose import line


@dataclass(frozen=True, slots=True)
class StudyPage:
    """All figures of a brew: with its ``editions`` side by side, or else with how nearly its ``changes`` keep them."""

    brew: Brew
    title: Markup
    ingredients: Ingredients
    water: WaterView
    packing: Packing
    day: BrewDay
    targets: tuple[Group[Target], ...]
    pictures: Mapping[str, Picture]
    bitterness_model: str
    colour_model: str
    model_tables: tuple[ModelTable, ...]
    editions: Comparison | None
    changes: Changes | None
    brewed: Brewed | None
    learn: Mapping[str, tuple[Link, ...]]


def study_page(brew: Brew, printing: Printing, brewed: Brewed | None, beside: Comparison | Changes | None) -> StudyPage:
    """The figures of one brew."""
    plan = brew.plan
    return StudyPage(
        brew=brew,
        title=line(plan.recipe.title),
        ingredients=ingredients(plan),
        water=water_view(plan),
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
        learn=explained(printing.book.learning),
    )
