"""Recipes and brewhouses of every kind: what the laws of sizing and of conservation are tried on.

The spans are those of home brewing and somewhat beyond: beers of about 1.015 to 1.14, batches of 2 to 80 L, vessels
that may be too small.
"""

from dataclasses import dataclass, replace
from typing import Any

from hypothesis import strategies as st
from made_up import (
    BASES,
    HERE,
    SPECIALS,
    as_shares,
    book,
    brewhouse,
    hop,
    malt,
    recipe,
    sugar,
    value,
    with_a_kit,
    yeast,
)

from gristbook.model.book import Book
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.edition import Edition, Source
from gristbook.model.extra import Extra
from gristbook.model.hop import Hop
from gristbook.model.packing import Carbonation, PrimingSugar
from gristbook.model.recipe import Malt, Recipe, Sugar
from gristbook.model.yeast import Yeast
from gristbook.sheet.value import Value

TABLE_SUGAR = PrimingSugar("Sucrose", "table sugar", "C12H22O11")


@dataclass(frozen=True, slots=True, repr=False)
class Brew:
    """A recipe, the brewhouse that it was written in, and another one, in which a batch of another size is wanted."""

    recipe: Recipe
    home: Brewhouse
    away: Brewhouse
    batch: Value
    book: Book

    def __repr__(self) -> str:
        """As short as a failing example wants it."""

        def short(number: Value | None) -> str:
            return "–" if number is None else f"{number.number:.4g} {number.unit}"

        lines = [f"{short(self.batch)} of {short(self.recipe.batch)}, {short(self.recipe.boil)}"]
        lines[0] += f", kettle {short(self.recipe.kettle)}, gravity {short(self.recipe.original_gravity)}"
        for house in (self.home, self.away):
            figures = (house.batch, house.efficiency, house.boil_off, house.left_in_kettle, house.absorption)
            figures += (house.thickness, house.tun, house.kettle, house.altitude)
            lines.append(f"{house.name} ({house.mash}): " + ", ".join(map(short, figures)))
        for item in (*self.recipe.malts, *self.recipe.sugars):
            late = "" if isinstance(item, Malt) else f", {short(item.minutes)}, into fermenter {item.into_fermenter}"
            lines.append(f"{item.name}: {short(item.amount.value)}{late}")
        for line in self.recipe.hops:
            lines.append(f"{line.name}: {short(line.amount.value)}, {line.use}")
        return "\n".join(["", *lines])

    def _repr_pretty_(self, printer: Any, cycle: bool) -> None:
        printer.text(repr(self))

    def edition(self, source: Source = "as written", *, us: bool = False) -> Edition:
        """The edition that is wanted."""
        return Edition("away", "away", self.batch, self.away.name, source, us, HERE)


@st.composite
def brewhouses(draw: st.DrawFn, name: str, roomy: bool = False) -> Brewhouse:
    """A set of vessels; a ``roomy`` one has vessels for anything."""
    batch_l = draw(st.floats(2, 80))
    mash = draw(st.sampled_from(["sparge", "bag", "none"] if not roomy else ["sparge", "bag"]))
    room = st.none() if roomy else st.none() | st.floats(0.3, 3.0).map(lambda times: times * batch_l)
    return brewhouse(
        name,
        batch_l,
        mash,  # type: ignore[arg-type]  # sampled from its own words
        efficiency=draw(st.floats(0.5, 0.95) | (st.none() if mash == "bag" else st.nothing())),
        boil_off=batch_l * draw(st.just(0.0) | st.floats(0.01, 0.3)),
        left_l=batch_l * draw(st.just(0.0) | st.floats(0.01, 0.15)),
        absorption=draw(st.floats(0.4, 1.2)),
        thickness=draw(st.floats(1.8, 5.0)),
        tun_l=draw(room),
        kettle_l=draw(room),
        altitude_m=draw(st.just(0.0) | st.floats(-400, 4000)),
    )


@st.composite
def hop_additions(draw: st.DrawFn, batch_l: float, boil_min: float) -> Hop:
    use = draw(st.sampled_from(["boil", "boil", "first wort", "stand", "dry"]))
    heated = use == "stand"
    minutes = draw(st.floats(0, boil_min)) if use == "boil" else draw(st.floats(5, 40)) if heated else None
    wanted = draw(st.floats(2, 30)) if use == "boil" and boil_min > 10 and draw(st.integers(0, 4)) == 0 else None
    if wanted is not None:
        minutes = draw(st.floats(10, boil_min))
    return hop(
        draw(st.sampled_from(["Fuggle", "Perle", "Target"])),
        None if wanted is not None else batch_l * draw(st.floats(0.1, 4)),
        use,  # type: ignore[arg-type]  # sampled from its own words
        alpha=draw(st.floats(0.02, 0.18)),
        minutes=minutes,
        heat_c=draw(st.floats(60, 99)),
        wanted=wanted,
    )


@st.composite
def grists(draw: st.DrawFn, batch_l: float, boil_min: float, mash: str) -> tuple[tuple[Malt, ...], tuple[Sugar, ...]]:
    """Whole grain, malt extract with steeped grain, both, or sugars alone."""
    way = draw(st.sampled_from(["grain", "grain", "extract", "both", "sugar"] if mash != "none" else ["extract"]))
    malts: list[Malt] = []
    sugars: list[Sugar] = []

    def some(low: float, high: float) -> float:
        return batch_l * draw(st.floats(low, high))

    if way in ("grain", "both"):
        for name in draw(st.lists(st.sampled_from(sorted(BASES)), min_size=1, max_size=2, unique=True)):
            malts.append(malt(name, BASES[name], some(0.06, 0.18)))
    for name in draw(st.lists(st.sampled_from(sorted(SPECIALS)), max_size=2, unique=True)) if way != "sugar" else ():
        steeped = way == "extract"
        if not (steeped and SPECIALS[name].needs_mash):
            malts.append(malt(name, SPECIALS[name], some(0.002, 0.03), steeped=steeped))
    if way in ("extract", "both"):
        for at in draw(st.lists(st.none() | st.floats(0, boil_min), min_size=1, max_size=2)):
            sugars.append(sugar("Dried extract", some(0.03, 0.09), minutes=at, from_malt=True))
    if way == "sugar" or draw(st.integers(0, 3)) == 0:
        at = draw(st.none() | st.floats(0, boil_min))
        sugars.append(sugar("Table sugar", some(0.01, 0.12 if way == "sugar" else 0.04), minutes=at))
    if draw(st.integers(0, 3)) == 0:
        sugars.append(sugar("Honey", some(0.005, 0.04), into_fermenter=True))
    return tuple(malts), tuple(sugars)


@st.composite
def recipes(draw: st.DrawFn, home: Brewhouse) -> Recipe:
    batch_l = home.batch.number * draw(st.floats(0.5, 1.5))
    boil_min = draw(st.floats(10, 120))
    malts, sugars = draw(grists(batch_l, boil_min, home.mash))
    written = replace(
        recipe(batch_l, boil_min, malts, sugars),
        hops=tuple(draw(st.lists(hop_additions(batch_l, boil_min), max_size=4))),
        yeasts=(draw(yeasts(batch_l)),),
        carbonation=draw(st.none() | st.just(Carbonation(value(2.2, "vol", "gas"), TABLE_SUGAR, HERE))),
        extras=(
            Extra("Irish moss", value(draw(st.floats(0.001, 0.02)), "kg", "moss"), "5 g", None, "", "", None, HERE),
        ),
    )
    way = draw(st.integers(0, 5))
    if way == 0:
        return as_shares(written, draw(st.floats(1.02, 1.11)))
    if way == 1:
        return with_a_kit(written, draw(st.floats(5, 25)))
    if way == 2:
        boiled = batch_l * draw(st.floats(0.4, 0.9)) + home.left_in_kettle.number
        start = boiled + home.boil_off.number * boil_min / 60
        return replace(written, kettle=value(start, "L", "wort at the start of the boil"))
    return written


@st.composite
def yeasts(draw: st.DrawFn, batch_l: float) -> Yeast:
    dried = draw(st.booleans())
    amounts = st.floats(0.3, 1.5).map(lambda dose: value(dose * batch_l, "g", "weight of the yeast"))
    packs = st.integers(1, 4).map(lambda many: value(many, "packs", "packs of yeast"))
    return yeast(draw(st.none() | (amounts if dried else packs)), dried=dried, attenuation=draw(st.floats(0.62, 0.85)))


@st.composite
def brews(draw: st.DrawFn, roomy: bool = False) -> Brew:
    home = draw(brewhouses("home", roomy=True))
    if draw(st.integers(0, 3)) == 0:
        home = replace(home, mash="none")
    away = draw(brewhouses("away", roomy=roomy))
    batch = value(draw(st.floats(2, 80)) if not roomy else away.batch.number, "L", "batch")
    return Brew(draw(recipes(home)), home, away, batch, book(home, away))
