"""A book: its title page, its brewhouses, its recipes in chapters."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gristbook.model.batch import Batch
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.edition import Edition
from gristbook.model.larder import Ingredient
from gristbook.model.learning import Learning
from gristbook.model.price import Prices
from gristbook.model.recipe import Malt, Recipe, Sugar
from gristbook.model.steps import MashStep
from gristbook.problems import Problem


@dataclass(frozen=True, slots=True)
class Chapter:
    """Recipes under a heading, by slug, in the author's order."""

    title: str
    about: str
    recipes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Page:
    """Another page of the author's, in Markdown."""

    slug: str
    title: str
    prose: str
    prose_line: int = 1


@dataclass(frozen=True, slots=True)
class Book:
    """All that an author wrote and that could be read. ``units`` is "metric" or "US": what is shown first.

    ``extracts`` (by name), ``base_malt`` and ``base_mash`` are what editions swap in, without a weight of their own;
    ``larder`` is everything that the pantry knows, used or not; ``batches`` go by day, with those of lost recipes.
    ``texts`` are all files that a page is made from, by path, also those that could not be read; ``broken`` names the
    brewhouses that could not be read, ``amiss`` is what is wrong in them, and nothing is brewed there.
    """

    title: str
    author: str
    address: str
    note: str
    language: str
    units: str
    bitterness_model: str
    colour_model: str
    brewhouse: str
    brewhouses: Mapping[str, Brewhouse]
    editions: tuple[Edition, ...]
    extracts: Mapping[str, Sugar]
    base_malt: Malt
    base_mash: MashStep
    larder: tuple[Ingredient, ...]
    chapters: tuple[Chapter, ...]
    recipes: tuple[Recipe, ...]
    batches: tuple[Batch, ...]
    pages: tuple[Page, ...]
    prices: Prices | None
    learning: Learning | None
    learning_called: str = ""
    texts: tuple[str, ...] = ()
    broken: frozenset[str] = frozenset()
    amiss: frozenset[Problem] = frozenset()
