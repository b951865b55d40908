"""The tables of figures: targets by the part of the brew they belong to, and totals by every published model."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gristbook.equations.registry import filed
from gristbook.model.figures import FIGURES
from gristbook.sheet.value import Value
from gristbook.site.pages import Group
from gristbook.site.words import InStyle, capital, grist_words, in_style
from gristbook.targets.figures import Plan
from gristbook.targets.models import COLOUR

PALE_MCU = 20.0
"""Malt colour units well within the span of every model: a beer beyond one of them lies to this side of it."""


@dataclass(frozen=True, slots=True)
class Target:
    """A figure to aim for; ``style`` says in words where it stands in the style."""

    name: str
    figure: Value
    style: InStyle | None


@dataclass(frozen=True, slots=True)
class Model:
    """A published model, the title of its work, what it gives here, and whether it is the book's own."""

    name: str
    title: str
    figure: Value
    own: bool


@dataclass(frozen=True, slots=True)
class ModelTable:
    """One figure by every published model that covers it, oldest first; ``anchor`` is its place on the page.

    ``left_out`` are the models that do not cover it, and ``beyond`` says which way it lies beyond them.
    """

    anchor: str
    caption: str
    heading: str
    rows: tuple[Model, ...]
    left_out: tuple[str, ...] = ()
    beyond: str = ""


def targets(plan: Plan) -> tuple[Group[Target], ...]:
    """All named figures of a plan, by the part of the brew."""
    grist = plan.figures.grist
    called = {"The grist": grist_words(grist)}
    if grist.mashed is None:
        called["Water and mash"] = "Water"
    if not plan.recipe.boil.number:
        called["The boil"] = "The kettle"
    parts: dict[str, list[Target]] = {}
    for row in FIGURES:
        value = plan.sheet.get(row.id)
        if value is not None and is_told(row.id, plan):
            target = Target(capital(row.words), value, in_style(row.id, value, plan.recipe.style))
            parts.setdefault(called.get(row.part, row.part), []).append(target)
    return tuple(Group("", title, tuple(rows)) for title, rows in parts.items())


def is_told(figure: str, plan: Plan) -> bool:
    """Whether a page has the figure: no malt where nothing but extract goes in, no packs of liquid yeast beside dried
    yeast or a slurry, and no second target for the mash beside what is said of its water.
    """
    if figure == "base-malt":
        return bool(plan.figures.grist.malts)
    if figure == "packs-of-liquid-yeast":
        return any(not yeast.dried and not yeast.called for yeast in plan.recipe.yeasts)
    return figure != "lactic-acid-for-the-mash"


def model_tables(plan: Plan) -> tuple[ModelTable, ...]:
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
        ModelTable(f"table-{name}", caption, heading, _models(found, own), *(_beyond(plan) if name == "colour" else ()))
        for name, caption, heading, found, own in tables
        if found
    )


def _beyond(plan: Plan) -> tuple[tuple[str, ...], str]:
    """The models of colour that do not cover the beer, and what it is too much of for them."""
    colour = plan.figures.colour
    names = tuple(model_name(name) for name in COLOUR if name not in dict(colour.models))
    return names, "pale" if colour.malt_colour.number < PALE_MCU else "dark"


def _models(totals: tuple[tuple[str, Value], ...], own: str) -> tuple[Model, ...]:
    """The figure by every model, each with the title of its work."""
    rows = (Model(model_name(name), _title(name), value, name == own) for name, value in totals)
    return tuple(sorted(rows, key=lambda row: (row.name[-4:], row.name)))


@cache
def _title(model: str) -> str:
    """The title of a model's work: that of the equation called so, else the one of its author in its year, if any."""
    called, (author, _, year) = model.replace(" ", "_"), model.rpartition(" ")
    works = [it.source for it in filed() if it.name.partition(".")[2].endswith(called)]
    works += [it.source for it in filed() if author in it.source.authors.lower() and it.source.year == year]
    return works[0].title if works else ""


def model_name(name: str) -> str:
    """An author and a year as a page prints them.

    >>> model_name("tinseth 1997")
    'Tinseth 1997'
    """
    return name.title() if name[-4:].isdecimal() else capital(name)
