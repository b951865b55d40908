"""One recipe of a made-up book: which beer it is, and its fields as a brewer would write them.

What beers and words there are stands in `made/`; weights follow from the gravity and the bitterness that are wanted.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil
from pathlib import Path
from random import Random
from typing import Any

import yaml

MADE = Path(__file__).parent / "made"
WORDS = yaml.safe_load((MADE / "words.yaml").read_text("utf-8"))
FIRST, SECOND, THINGS = WORDS["first"].split(), WORDS["second"].split(), WORDS["things"]
ALPHA, YEASTS = WORDS["alpha"], WORDS["yeasts"]

MASHED, OF_EXTRACT = 222, 350
"""Gravity points in a litre that a kilogram gives: of grist in the quarry, of dried extract and steeped malts."""


@dataclass(frozen=True, slots=True)
class Family:
    """A kind of beer, and what its recipes differ by, as `made/families.yaml` has it."""

    noun: str
    style: str
    span: Mapping[str, tuple[float, float]]
    base: str
    others: Mapping[str, tuple[float, float]]
    yeast: str
    hops: Mapping[str, Any]
    mash: Sequence[tuple[int, int]]
    ferment: Sequence[tuple[int, str]]
    sugar: tuple[str, float, str] | None = None
    spices: Sequence[str] = ()
    water: Sequence[str] = ()
    extract: str = ""


FAMILIES = [Family(**entry) for entry in yaml.safe_load((MADE / "families.yaml").read_text("utf-8"))]


@dataclass(frozen=True, slots=True)
class Kettle:
    """Where a recipe is at home, how much it makes there, and what it leaves in the kettle."""

    brewhouse: str
    litres: float
    left: float
    us: bool = False
    extract: bool = False


QUARRY, HALT, CABIN, PAN = (
    Kettle("quarry", 20, 1.5),
    Kettle("halt", 18.93, 1.9, us=True),
    Kettle("cabin", 10, 0.8),
    Kettle("pan", 10, 0.5, extract=True),
)


@dataclass(frozen=True, slots=True)
class Beer:
    """A recipe as it is thought of, before it is written."""

    number: int
    title: str
    family: Family
    kettle: Kettle
    points: int
    bitterness: int
    kilos: dict[str, float]
    hops: tuple[tuple[str, float, str], ...]
    volumes: float

    @property
    def in_percent(self) -> bool:
        return self.kettle is QUARRY and not self.family.sugar and self.number % 7 == 5

    @property
    def kegged(self) -> bool:
        return self.kettle is QUARRY and self.number % 6 == 4

    @property
    def slug(self) -> str:
        return self.title.lower().replace(" ", "-")


def title(number: int) -> str:
    row, turn = number % len(FIRST), number // len(FIRST)
    return f"{FIRST[row]} {SECOND[(turn + 7 * row) % len(SECOND)]} {family_of(number).noun}"


def family_of(number: int) -> Family:
    return FAMILIES[(number + number // len(FIRST)) % len(FAMILIES)]


def beer(number: int, dice: Random) -> Beer:
    family = family_of(number)
    kettle = dice.choices((QUARRY, HALT, CABIN, PAN), (10, 3, 3, 16 if family.extract else 0))[0]
    points, bitterness = (round(dice.uniform(*span)) for span in (family.span["points"], family.span["bitterness"]))
    in_kettle = kettle.litres + kettle.left
    whole = points * in_kettle / (OF_EXTRACT if kettle.extract else MASHED)
    shares = {name: dice.uniform(*span) for name, span in family.others.items()}
    sugar = {family.sugar[0]: family.sugar[1]} if family.sugar else {}
    shares = {family.base: 1 - sum(shares.values()) - sum(sugar.values()), **shares, **sugar}
    kilos = {name: rounded(whole * share) for name, share in shares.items()}
    hops = tuple(hopping(family, bitterness, in_kettle, dice))
    return Beer(
        number,
        title(number),
        family,
        kettle,
        points,
        bitterness,
        kilos,
        hops,
        round(dice.uniform(*family.span["volumes"]), 1),
    )


def rounded(kilos: float) -> float:
    """To 50 g, or to 10 g of what is little."""
    step = 0.05 if kilos > 1 else 0.01
    return round(round(kilos / step) * step, 2)


def hopping(family: Family, bitterness: float, litres: float, dice: Random) -> Iterator[tuple[str, float, str]]:
    """Hops by name, grams and moment: late ones by the gram, and the bitter charge for what they leave open."""
    open_still, after = bitterness, []
    for minutes, used in ((15, 0.11), (5, 0.045), (0, 0.03))[: family.hops["late"]]:
        name = dice.choice(family.hops["aroma"])
        grams = 5 * round(litres * dice.uniform(0.8, 1.4) / 5)
        open_still -= grams * ALPHA[name] * 10 * used / litres
        after.append((name, grams, f"{minutes} min" if minutes else "stand 20 min"))
    name = dice.choice(family.hops["bitter"])
    yield name, max(2, round(open_still * litres / (ALPHA[name] * 10 * 0.225))), "60 min"
    yield from after
    if family.hops.get("dry"):
        yield dice.choice(family.hops["aroma"]), 5 * round(litres * family.hops["dry"] / 5), "dry 3 days"


def front(it: Beer, brewed: date) -> Iterator[str]:
    """A recipe's fields, in the order in which a page has them."""
    kettle, family, us = it.kettle, it.family, it.kettle.us
    yield f"title: {it.title}"
    yield f"date: {brewed - timedelta(days=3)}"
    yield f"summary: {THINGS[it.number % len(THINGS)].capitalize()} and little else, at {it.points} points."
    yield f"style: {family.style}"
    if kettle is not QUARRY:
        yield f"brewhouse: {kettle.brewhouse}"
    yield from core(it, weighed=False)
    if kettle is not QUARRY:
        yield "editions: [20 L in quarry]  # the book has the others"
    if not us:
        yield "expect:"
        yield f"  original gravity: 1.{it.points:03} ± 0.006"


def core(it: Beer, *, weighed: bool) -> Iterator[str]:
    """The fields that a batch keeps, too; a batch was ``weighed`` where a recipe may have its grist in percent."""
    kettle, family, us = it.kettle, it.family, it.kettle.us
    share = kettle.litres / 20
    sugar = family.sugar[0] if family.sugar else ""
    yield f"batch: {'5 gal' if us else f'{kettle.litres:g} L'}"
    yield f"boil: {75 if 'pils' in family.base else 60} min"
    malts = {name: kilos for name, kilos in it.kilos.items() if name != sugar}
    if kettle.extract:
        yield "extracts:"
        yield f"  - {weight(malts.pop(family.base), us)} {family.extract}, 60 min"
    if it.in_percent and not weighed:
        yield f"original gravity: 1.{it.points:03}"
    yield "malts:"
    if it.in_percent and not weighed:
        whole = sum(malts.values())
        yield from (f"  - {100 * kilos / whole:.1f} % {name}" for name, kilos in malts.items())
    else:
        yield from (
            f"  - {weight(kilos, us)} {name}{', steep 30 min at 68 °C' if kettle.extract else ''}"
            for name, kilos in malts.items()
        )
    if family.sugar:
        yield "sugars:"
        yield f"  - {weight(it.kilos[sugar], us)} {sugar}, {family.sugar[2]}"
    yield "hops:"
    for name, grams, when in it.hops:
        warm = f" at {warmth(80, us)}" if "stand" in when else ""
        yield f"  - {hop_weight(grams, us)} {name}, {ALPHA[name]:g} % alpha, {when}{warm}"
    yield "yeast:"
    yield f"  - {pitched(family.yeast, kettle.litres * it.points)}"
    if not kettle.extract:
        yield "mash:"
        yield from (f"  - {warmth(heat, us)}, {minutes} min" for heat, minutes in family.mash)
    for field, lines in (("water", family.water), ("finings and spices", family.spices)):
        if lines and not (kettle.extract and field == "water"):
            yield f"{field}:"
            yield from (f"  - {scaled(line, share)}" for line in lines)
    yield "ferment:"
    yield from (f"  - {warmth(heat, us)}, {time}" for heat, time in family.ferment)
    primed = "keg, 4 °C" if it.kegged else f"primed with {'corn' if us else 'table'} sugar"
    yield f"carbonation: {it.volumes:g} volumes, {primed}"


def weight(kilos: float, us: bool) -> str:
    if us:
        pounds, ounces = divmod(round(kilos / 0.028349523), 16)
        return " ".join(f"{n} {unit}" for n, unit in ((pounds, "lb"), (ounces, "oz")) if n)
    return f"{kilos:g} kg" if kilos >= 1 else f"{1000 * kilos:.0f} g"


def hop_weight(grams: float, us: bool) -> str:
    return f"{max(1, round(4 * grams / 28.35)) / 4:g} oz" if us else f"{grams:g} g"


def warmth(celsius: float, us: bool) -> str:
    return f"{round(1.8 * celsius + 32)} °F" if us else f"{celsius} °C"


def pitched(yeast: str, work: float) -> str:
    """Whole packets, for so many litres times points."""
    amount, form = YEASTS[yeast][0].split(", ")
    number, unit = amount.split(" ")
    packets = ceil(int(number) / (11 if unit == "g" else 1) * work / 1130)
    return (
        f"{11 * packets} g {yeast}, {form}"
        if unit == "g"
        else f"{packets} {'packs' if packets > 1 else 'pack'} {yeast}, {form}"
    )


def scaled(line: str, share: float) -> str:
    number, rest = line.split(" ", 1)
    return f"{round(2 * float(number) * share) / 2 or 0.5:g} {rest}"
