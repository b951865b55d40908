"""The tables of figures: targets by the part of the brew they belong to, and totals by every published model."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from gristbook.equations.registry import Source
from gristbook.model.figures import FIGURES
from gristbook.sheet.origin import Worked
from gristbook.sheet.value import Value, lineage
from gristbook.site.figures import Figure, Shown
from gristbook.site.words import InStyle, capital, in_style
from gristbook.targets.figures import Plan


@dataclass(frozen=True, slots=True)
class Target:
    """A figure to aim for; ``style`` says in words where it stands in the style."""

    name: str
    figure: Figure
    style: InStyle | None


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
    """All named figures of a plan, by the part of the brew."""
    parts: dict[str, list[Target]] = {}
    for row in FIGURES:
        value = plan.sheet.get(row.id)
        if value is not None:
            style = in_style(row.id, value, plan.recipe.style)
            parts.setdefault(row.part, []).append(Target(capital(row.words), shown(value), style))
    return tuple(Targets(title, tuple(rows)) for title, rows in parts.items())


@dataclass(frozen=True, slots=True)
class ModelTable:
    """One figure by every published model; ``anchor`` is its place on the page."""

    anchor: str
    caption: str
    heading: str
    rows: tuple[Model, ...]


def model_tables(plan: Plan, shown: Shown) -> tuple[ModelTable, ...]:
    """A table of every figure that several have published a model of, and that this brew has."""
    figures = plan.figures
    strengths, energies = figures.fermentation.strengths, figures.serving.models
    acidities = figures.chemistry.mash_ph_models if figures.chemistry is not None else ()
    tables = (
        ("bitterness", "Bitterness by model", "Bitterness", figures.bitterness.models, plan.bitterness_model),
        ("colour", "Colour by model", "Colour", figures.colour.models, plan.colour_model),
        ("strength", "Strength by model", "Alcohol by volume", strengths, strengths[0][0]),
        ("energy", "Energy by model", "In a small bottle", energies, energies[0][0]),
        ("ph", "Mash pH by model", "pH of the mash", acidities, acidities[0][0] if acidities else ""),
    )
    return tuple(
        ModelTable(f"table-{name}", caption, heading, models(found, own, shown))
        for name, caption, heading, found, own in tables
        if found
    )


def models(totals: Iterable[tuple[str, Value]], own: str, shown: Shown) -> tuple[Model, ...]:
    """The figure by every model, oldest first."""
    rows = [Model(model_name(name), _title(name, value), shown(value), name == own) for name, value in totals]
    return tuple(sorted(rows, key=lambda row: (row.name[-4:], row.name)))


def model_name(name: str) -> str:
    """An author and a year as a page prints them.

    >>> model_name("tinseth 1997")
    'Tinseth 1997'
    """
    return name.title() if name[-4:].isdecimal() else capital(name)


def _title(name: str, value: Value) -> str:
    """The title of the work that a model was published in: the source in the lineage that bears its name."""
    author, _, year = name.rpartition(" ")
    sources: list[Source] = [v.made.equation.source for v in lineage(value) if isinstance(v.made, Worked)]
    found = [s for s in sources if author in s.authors.lower() and s.year == year]
    return found[0].title if found else ""
