"""The batch of a made recipe: what is kept of the recipe and its plan, and what a brewer wrote down on the day."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from random import Random

from .made_beer import YEASTS, Beer, core


def plan(it: Beer) -> dict[str, float | str]:
    """The plan's figures by their names; reckoned in short, a point or a tenth beside Gristbook's own."""
    litres, left, points = it.kettle.litres, it.kettle.left, it.points
    attenuation = YEASTS[it.family.yeast][1] / 100
    end, before, grain = litres + left, litres + left + 3, 0 if it.kettle.extract else sum(it.kilos.values())
    final = points * (1 - attenuation)
    plato, apparent = points / 4.05, final / 3.9
    real = 0.1808 * plato + 0.8192 * apparent
    alcohol, packaged, held = (points - final) * 0.1313, litres - 1, 0.9
    colour = 4.0 + 60 * (1 - it.kilos[it.family.base] / sum(it.kilos.values())) ** 2
    sugar = (it.volumes - held) * 4.0 * packaged
    figures: dict[str, float | str] = {}
    if grain:
        figures |= {
            "mash temperature": f"{it.family.mash[-1][0]} °C",
            "base malt": "0.9 fraction",
            "diastatic power": "70 ± 25 °Lintner",
            "grain mashed": f"{grain:.6g} kg",
            "mash water": f"{2.7 * grain:.6g} L",
            "strike temperature": f"{it.family.mash[0][0] + 6.1} ± 0.37 °C",
            "sparge water": f"{before - 1.7 * grain:.6g} L",
            "mash efficiency": "0.74 ± 0.04 fraction",
            "gravity of the first runnings": f"{1 + points * 1.65 / 1000:.6g} ± 0.004",
            "mash pH": "5.61 ± 0.08 pH",
            "potential of the mashed grain": f"{0.77 * grain:.6g} ± 0.07 kg",
        }
    return figures | {
        "temperature at pitching": f"{it.family.ferment[0][0]} °C",
        "total water": f"{before + grain:.6g} L",
        "calcium in the water": "48 ± 4 mg/L",
        "sulfate in the water": "44 ± 4 mg/L",
        "chloride in the water": "30 ± 3 mg/L",
        "residual alkalinity": "52 ± 9 mg/L CaCO₃",
        "boil volume": f"{before:g} L",
        "boil volume, hot": f"{before * 1.041:.6g} L",
        "gravity before the boil": f"{1 + points * end / before / 1000:.6g} ± 0.0025",
        "volume at the end of the boil": f"{end:g} ± 0.3 L",
        "gravity after the boil": f"{1 + points / 1000:.6g} ± 0.003",
        "into the fermenter": f"{litres:g} ± 0.3 L",
        "original gravity": f"{1 + points / 1000:.6g} ± 0.003",
        "original extract": f"{plato:.6g} ± 0.7 °P",
        "brewhouse efficiency": "0.688 ± 0.037 fraction",
        "cells to pitch": f"{0.75 * litres * plato:.6g} ± 10 10⁹ cells",
        "final gravity": f"{1 + final / 1000:.6g} ± 0.002",
        "apparent extract": f"{apparent:.6g} ± 0.5 °P",
        "real extract": f"{real:.6g} ± 0.48 °P",
        "apparent attenuation": f"{attenuation:g} ± 0.04 fraction",
        "real attenuation": f"{0.82 * attenuation:.6g} ± 0.033 fraction",
        "alcohol by volume": f"{alcohol:.6g} ± 0.4 %",
        "alcohol by weight": f"{0.79 * alcohol:.6g} ± 0.32 %",
        "bitterness": f"{it.bitterness:g} ± {it.bitterness / 5:g} IBU",
        "bitterness to gravity": f"{it.bitterness / points:.6g} ± 0.12 ratio",
        "colour": f"{colour:.6g} ± 0.9 SRM",
        "colour, EBC": f"{1.97 * colour:.6g} ± 1.8 EBC",
        "beer to package": f"{packaged:g} ± 0.3 L",
        "carbonation": f"{it.volumes:g} vol",
        "gas left from fermentation": f"{held:g} vol",
        "priming sugar": f"{sugar:.6g} ± 2 g",
        "days until it is ready": "38 ± 9 d",
        "energy in a small bottle": f"{3.1 * points:.6g} ± 9 kcal",
        "carbohydrate in a small bottle": f"{0.29 * points:.6g} ± 1.6 g",
        "boiling point": "99.3 °C",
        "boil-off": "3 ± 0.3 L/h",
        "length of the boil": "60 min",
        "left in the kettle": f"{left:g} L",
        "left in the fermenter": "1 L",
        "attenuation of the yeast": f"{attenuation:g} ± 0.04 fraction",
        "warmest storage": "30 °C",
    }


def batch(it: Beer, brewed: date, logged: bool, dice: Random) -> str:
    """The whole file."""
    kept = "\n".join(f"  {line}" for line in core(it, weighed=True))
    figures = "\n".join(f"    {name}: {words}" for name, words in plan(it).items())
    lines = "\n".join(measured(it, brewed, logged, dice))
    return (
        f"---\nbrewed: {brewed}\nbrewhouse: {it.kettle.brewhouse}\n{lines}\n"
        "recipe:  # as it stands today: leave it so, and nothing that changes later changes this batch\n"
        f"  title: {it.title}\n  style: {it.family.style}\n{kept}\n  plan:\n{figures}\n---\n\n"
        f"Brewed with the door open. See [what was planned](../{it.slug}.md).\n"
    )


def measured(it: Beer, brewed: date, logged: bool, dice: Random) -> Iterator[str]:
    """What was written down, each a little beside the plan."""
    litres, end = it.kettle.litres, it.kettle.litres + it.kettle.left
    points = it.points + dice.choice((-2, -1, -1, 0, 0, 0, 1, 1))
    final = round(points * (1 - YEASTS[it.family.yeast][1] / 100)) + dice.choice((-1, 0, 0, 1))
    whole = sum(days(time) for _, time in it.family.ferment)
    last = brewed + timedelta(days=whole)
    heat = it.family.ferment[0][0]
    yield "measured:"
    yield "  hydrometer: 20 °C"
    if not it.kettle.extract:
        yield f"  mash temperature: {it.family.mash[-1][0]} °C"
    yield f"  before the boil: {end + 3 + dice.choice((-0.3, 0, 0.2)):.1f} L at 1.{round(points * end / (end + 3)):03}"
    yield f"  end of the boil: {1.04 * end:.1f} L hot at 1.{points:03}"
    yield f"  into the fermenter: {litres - dice.choice((0, 0.2, 0.4)):.1f} L"
    yield f"  original gravity: 1.{points:03} at 20 °C"
    yield f"  pitched: {heat} °C"
    yield "  readings:"
    for day, still in (
        (brewed + timedelta(days=3), 0.5),
        (last - timedelta(days=7 if whole > 20 else 4), 0),
        (last, 0),
    ):
        yield f"    - {day}, 1.{round(final + still * (points - final)):03}, {heat} °C"
    if logged:
        yield f"  log: {brewed}.csv, time in taken, gravity in sg, temperature in beer"
    if it.family.hops.get("dry"):
        yield f"  dry hopped: {last - timedelta(days=5)}"
    yield f"  final gravity: 1.{final:03} at {heat} °C"
    full = round(litres - 1.3, 1)
    if it.kegged:
        yield f"  packaged: {last}, {full} L, keg"
    else:
        yield f"  packaged: {last}, {full} L, {round((it.volumes - 1) * 4 * full)} g table sugar, heavy bottles"
    yield "  warmest storage: 19 °C"
    yield f"ready: {last + timedelta(days=21)}"
    yield "tasted:"
    yield f"  - {last + timedelta(days=21)}, as it was meant to be, or near enough"


def days(time: str) -> int:
    number, unit = time.split(" ")
    return int(number) * (7 if unit.startswith("week") else 1)


def log(it: Beer, brewed: date, dice: Random) -> str:
    """Every six hours for ten days, as an instrument that floats would write it."""
    points, final = it.points, it.points * (1 - YEASTS[it.family.yeast][1] / 100)
    rows = ["taken,sg,beer"]
    for turn in range(40):
        now = datetime(brewed.year, brewed.month, brewed.day, 18) + timedelta(hours=6 * turn)
        gravity = 1 + (final + (points - final) / (1 + (turn / 10) ** 4)) / 1000 + dice.uniform(-3e-4, 3e-4)
        rows.append(f"{now:%Y-%m-%d %H:%M},{gravity:.4f},{it.family.ferment[0][0] + dice.uniform(-0.4, 0.8):.1f}")
    return "\n".join(rows) + "\n"
