"""Made-up malts, hops, recipes and brewhouses, built as the model holds them: nothing depends on how a line is read."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType
from typing import Literal

from gristbook.model.amount import Share, Wanted, Weight
from gristbook.model.book import Book
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.hop import Hop, HoppedKit
from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, HopUse, Stage, Stand
from gristbook.model.recipe import HOPPED, Malt, Recipe, Steep, Sugar
from gristbook.model.yeast import Yeast
from gristbook.problems import Place, Problems
from gristbook.sheet.value import Value
from gristbook.sheet.value import given as noted
from gristbook.targets.chain import work_out
from gristbook.text.book import read_book
from gristbook.text.brewhouse import default_brewhouse

HERE = Place("recipe.md")
SLIGHT = 1 / 20
"""The spread of a made-up crop or sack: nine in ten within a twentieth."""


def value(number: float, unit: str, label: str, spread: float = 0.0) -> Value:
    return noted(number, unit, label, words="made up", ends=(-spread * number, spread * number))


@dataclass(frozen=True, slots=True)
class Kind:
    """A sort of malt: what it is, its extract (dry), colour, diastatic power, and whether only a mash converts it."""

    kind: str
    extract: float
    colour: float
    unit: Literal["°L", "EBC malt"]
    power: float | None
    needs_mash: bool
    cereal: str = "barley"


BASES: Mapping[str, Kind] = MappingProxyType(
    {
        "Pale malt": Kind("base", 0.81, 3.0, "°L", 55, True),
        "Lager malt": Kind("base", 0.815, 3.5, "EBC malt", 110, True),
        "Wheat malt": Kind("base", 0.83, 2.0, "°L", 90, True, "wheat"),
        "Vienna malt": Kind("kilned", 0.80, 4.0, "°L", 60, True),
    }
)
SPECIALS: Mapping[str, Kind] = MappingProxyType(
    {
        "Caramel malt": Kind("caramel", 0.75, 60.0, "°L", None, False),
        "Roast malt": Kind("roast", 0.70, 950.0, "EBC malt", None, False),
        "Amber malt": Kind("kilned", 0.77, 28.0, "°L", 0, True),
        "Flaked barley": Kind("flaked", 0.72, 1.7, "°L", None, True),
    }
)


def _amount(name: str, mass_kg: float | None, share: float | None) -> Weight | Share:
    if share is not None:
        return Share(value(share, "fraction", f"share of {name}"))
    return Weight(value(mass_kg or 0.0, "kg", f"weight of {name}"))


def malt(name: str, kind: Kind, mass_kg: float | None, *, share: float | None = None, steeped: bool = False) -> Malt:
    steep = Steep(value(30, "min", "time of the steep"), value(68, "°C", "temperature of the steep"))
    return Malt(
        name=name,
        amount=_amount(name, mass_kg, share),
        extract_dry=value(kind.extract, "fraction", f"extract of {name}", SLIGHT / 2),
        moisture=value(0.04, "fraction", f"moisture of {name}"),
        colour=value(kind.colour, kind.unit, f"colour of {name}", SLIGHT),
        kind=kind.kind,
        cereal=kind.cereal,
        diastatic_power=None if kind.power is None else value(kind.power, "°Lintner", f"diastatic power of {name}"),
        needs_mash=kind.needs_mash,
        steep=steep if steeped else None,
        place=HERE,
    )


def sugar(
    name: str,
    mass_kg: float | None,
    *,
    share: float | None = None,
    minutes: float | None = None,
    into_fermenter: bool = False,
    from_malt: bool = False,
    place: Place = HERE,
) -> Sugar:
    return Sugar(
        name=name,
        amount=_amount(name, mass_kg, share),
        extract_dry=value(0.98, "fraction", f"extract of {name}"),
        moisture=value(0.03, "fraction", f"moisture of {name}"),
        colour=value(8.0 if from_malt else 0.5, "°L", f"colour of {name}", SLIGHT),
        kind="dried" if from_malt else "sugar",
        from_malt=from_malt,
        attenuation=value(0.75 if from_malt else 1.0, "fraction", f"attenuation of {name}"),
        usual_attenuation=(0.7, 1.0),
        moment=Stage.FERMENTER
        if into_fermenter
        else Stage.KETTLE
        if minutes is None
        else BeforeTheEnd(value(minutes, "min", f"{name}, minutes before the end")),
        label="",
        place=place,
    )


def hop(
    name: str,
    mass_g: float | None,
    use: Literal["boil", "first wort", "stand", "dry"],
    *,
    alpha: float = 0.06,
    minutes: float | None = None,
    heat_c: float = 80.0,
    wanted: float | None = None,
) -> Hop:
    heat, time = value(heat_c, "°C", "temperature of the stand"), value(minutes or 0.0, "min", f"time of {name}")
    uses: dict[str, HopUse] = {
        "boil": BeforeTheEnd(time),
        "first wort": FirstWort(),
        "stand": Stand(time, heat, heat),
        "dry": BeforePackaging(value(3, "d", "days")),
    }
    return Hop(
        name=name,
        amount=Weight(value(mass_g or 0.0, "g", f"weight of {name}"))
        if wanted is None
        else Wanted(value(wanted, "IBU", f"bitterness wanted of {name}")),
        alpha=value(alpha, "fraction", f"alpha acids of {name}", 2 * SLIGHT),
        alpha_assumed=False,
        crops=(0.8 * alpha, 1.2 * alpha),
        store=None,
        storage_index=None,
        form="pellets",
        use=uses[use],
        aroma="",
        place=HERE,
    )


def yeast(amount: Value | None, *, dried: bool, attenuation: float) -> Yeast:
    return Yeast(
        name="House yeast",
        amount=amount,
        dried=dried,
        age=None,
        attenuation=value(attenuation, "fraction", "attenuation of the yeast", SLIGHT),
        usual_attenuation=(0.5, 0.95),
        diastatic=False,
        kind="ale",
        coolest_c=15,
        warmest_c=24,
        tolerance_abv=12,
        place=HERE,
        pitch_rate=None,
    )


@cache
def _bare() -> Book:
    """A book with one plain recipe, read from text: whatever the model holds besides is as an author leaves it."""
    with TemporaryDirectory() as folder:
        Path(folder, "book.yaml").write_text("title: A book\n", "utf-8")
        Path(folder, "recipe.md").write_text(PLAIN, "utf-8")
        problems = Problems()
        read = read_book(Path(folder), problems)
        assert read is not None
        assert problems.errors() == []
        return read


PLAIN = """---
title: A recipe
brewhouse: home
malts:
  - 4 kg pale ale malt
yeast:
  - american ale yeast, clean, dried
mash:
  - 67 °C, 60 min
ferment:
  - 19 °C, 10 days
carbonation: 2.2 volumes, primed with table sugar
---
"""


def recipe(batch_l: float, boil_min: float, malts: tuple[Malt, ...], sugars: tuple[Sugar, ...] = ()) -> Recipe:
    """A plain beer of these, with 1 g/L of hops at the start of the boil; the rest by `replace`."""
    plain = _bare().recipes[0]
    return replace(
        plain,
        batch=value(batch_l, "L", "batch"),
        boil=value(boil_min, "min", "length of the boil"),
        malts=malts,
        sugars=sugars,
        hops=(hop("Bitter hop", batch_l, "boil", minutes=boil_min),),
        yeasts=(yeast(None, dried=True, attenuation=0.75),),
        mash=plain.mash if any(malt.steep is None for malt in malts) else (),
    )


def brewhouse(
    name: str,
    batch_l: float,
    mash: Literal["sparge", "bag", "none"] = "sparge",
    *,
    efficiency: float | None = 0.72,
    boil_off: float = 3.0,
    left_l: float = 1.5,
    absorption: float = 1.0,
    thickness: float = 2.7,
    tun_l: float | None = None,
    kettle_l: float | None = None,
    fermenter_l: float | None = None,
    altitude_m: float = 0.0,
) -> Brewhouse:
    return replace(
        default_brewhouse(name),
        batch=value(batch_l, "L", "batch"),
        efficiency=None if efficiency is None else value(efficiency, "fraction", "mash efficiency", SLIGHT),
        conversion=value(0.95, "fraction", "conversion", SLIGHT / 2),
        steep_yield=value(0.60, "fraction", "yield of steeped grain", 0.3),
        boil_off=value(boil_off, "L/h", "boil-off", 0.1),
        left_in_kettle=value(left_l, "L", "wort left in the kettle"),
        left_in_fermenter=value(0.05 * batch_l, "L", "beer left in the fermenter"),
        absorption=value(absorption, "L/kg", "water that the grain keeps, by weight"),
        thickness=value(thickness, "L/kg", "thickness of the mash"),
        grain_temperature=value(20, "°C", "temperature of the grain"),
        tun_heat=value(0, "L", "heat of the tun, as water"),
        tun=None if tun_l is None else value(tun_l, "L", "mash tun, to the brim"),
        kettle=None if kettle_l is None else value(kettle_l, "L", "kettle, to the brim"),
        fermenter=None if fermenter_l is None else value(fermenter_l, "L", "fermenter, to the brim"),
        altitude=value(altitude_m, "m", "altitude"),
        mash=mash,
    )


def giving(house: Brewhouse, efficiency: float, written: Recipe) -> Brewhouse:
    """The brewhouse in which this grist comes to a mash efficiency, by what the mash then dissolves."""
    bare = replace(house, efficiency=None)
    mash = work_out(written, bare, "tinseth 1997", "morey 1995").mash
    assert mash is not None
    return replace(bare, conversion=value(efficiency / mash.lauter.number, "fraction", "conversion", SLIGHT))


def book(*brewhouses: Brewhouse) -> Book:
    """A bare book of these brewhouses, the first of them its own."""
    named = {house.name: house for house in brewhouses}
    return replace(_bare(), brewhouse=brewhouses[0].name, brewhouses=named, recipes=())


def as_shares(written: Recipe, gravity: float) -> Recipe:
    """The same grist in percentages, with a gravity to reach."""
    items = (*written.malts, *written.sugars)
    whole = sum(item.mass.number for item in items if item.mass)

    def share(mass: Value | None, name: str) -> Value:
        assert mass is not None
        return value(mass.number / whole, "fraction", f"share of {name}")

    return replace(
        written,
        kettle=None,
        original_gravity=value(gravity, "SG", "original gravity wanted"),
        malts=tuple(replace(item, amount=Share(share(item.mass, item.name))) for item in written.malts),
        sugars=tuple(replace(item, amount=Share(share(item.mass, item.name))) for item in written.sugars),
    )


def with_a_kit(written: Recipe, bitterness: float) -> Recipe:
    """The first malt extract made a hopped one; the kit is known by the place of its line."""
    extracts = [item for item in written.sugars if item.from_malt]
    if not extracts:
        return written
    line = Place("recipe.md", 9)
    label = value(23, "L", "volume that the label means")
    name = extracts[0].name + HOPPED
    kit = HoppedKit(name, value(bitterness, "IBU", "bitterness by the label"), label, line)
    tin = replace(extracts[0], name=name, label=f"{bitterness:g} IBU in 23 L", place=line)
    sugars = tuple(tin if item is extracts[0] else item for item in written.sugars)
    return replace(written, sugars=sugars, kits=(kit,))
