"""The tables of figures: targets by the part of the brew they belong to, and totals by every published model."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from gristbook.equations.registry import Source
from gristbook.site.figures import Figure, Shown
from gristbook.site.words import capital, style_words
from gristbook.targets.figures import Plan
from gristbook.worksheet import Derived, Value, lineage

GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Water and mash", ("grain mashed", "total water", "mash water", "strike temperature", "sparge water")),
    (
        "The boil",
        (
            "boil volume",
            "boil volume, hot",
            "gravity before the boil",
            "volume at the end of the boil",
            "gravity after the boil",
        ),
    ),
    (
        "Into the fermenter",
        (
            "top-up water",
            "into the fermenter",
            "original gravity",
            "original extract",
            "brewhouse efficiency",
            "cells to pitch",
            "packs of liquid yeast",
        ),
    ),
    (
        "The beer",
        (
            "final gravity",
            "apparent extract",
            "real extract",
            "apparent attenuation",
            "real attenuation",
            "alcohol by volume",
            "alcohol by weight",
            "bitterness",
            "bitterness to gravity",
            "colour",
            "colour, EBC",
        ),
    ),
    (
        "Packaging",
        (
            "beer to package",
            "carbonation",
            "gas left from fermentation",
            "priming sugar",
            "alcohol by volume, packaged",
            "bottle pressure at 30 °C",
        ),
    ),
)
"""The named figures in the order of the brew; what no group names comes last."""
_REST = "Besides"


@dataclass(frozen=True, slots=True)
class Target:
    """A figure to aim for; ``style`` says in words where it stands in the style."""

    name: str
    figure: Figure
    style: str


@dataclass(frozen=True, slots=True)
class Targets:
    """The figures of one part of the brew."""

    title: str
    rows: tuple[Target, ...]


@dataclass(frozen=True, slots=True)
class Model:
    """A published model, what it gives here, and whether it is the book's own."""

    name: str
    title: str
    figure: Figure
    own: bool


def targets(plan: Plan, shown: Shown) -> tuple[Targets, ...]:
    """All named figures of a plan, in groups."""
    named = plan.named
    grouped = {name for _, names in GROUPS for name in names}
    groups = (*GROUPS, (_REST, tuple(name for name in named if name not in grouped)))
    tables = (Targets(title, tuple(_targets(names, plan, shown))) for title, names in groups)
    return tuple(table for table in tables if table.rows)


def _targets(names: Iterable[str], plan: Plan, shown: Shown) -> Iterator[Target]:
    for name in names:
        value = plan.named.get(name)
        if value is not None:
            yield Target(capital(name), shown(value), style_words(name, value, plan.recipe.style))


def models(totals: Iterable[tuple[str, Value]], own: str, shown: Shown) -> tuple[Model, ...]:
    """The total by every model, oldest first."""
    rows = [Model(model_name(name), _title(name, value), shown(value), name == own) for name, value in totals]
    return tuple(sorted(rows, key=lambda row: (row.name[-4:], row.name)))


def model_name(name: str) -> str:
    """An author and a year as a page prints them.

    >>> model_name("tinseth 1997")
    'Tinseth 1997'
    """
    return name.title()


def _title(name: str, value: Value) -> str:
    """The title of the work that a model was published in: the source in the lineage that bears its name."""
    author, year = name.split()
    sources: list[Source] = [v.equation.source for v in lineage(value) if isinstance(v, Derived) and v.equation]
    found = [s for s in sources if author in s.authors.lower() and s.year == year]
    return found[0].title if found else ""
