"""The learning pages' pictures, drawn from the book's own equations; a page calls one by `chart:` and its name."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from markupsafe import Markup

from gristbook.charts.curves import Axis, Curve, Ground, curves_chart
from gristbook.charts.glasses import glasses_chart
from gristbook.charts.tuns import Tun, tuns_chart
from gristbook.equations import bitterness, mash
from gristbook.pantry.pantry import ours
from gristbook.sheet.value import given
from gristbook.site.band import rgb
from gristbook.site.words import KEPT
from gristbook.targets.buying.ingredients import tint
from gristbook.targets.conventions import GRAIN_DISPLACEMENT

SCHEME = "chart:"
_MODELS = (
    bitterness.utilisation_tinseth_1997,
    bitterness.utilisation_rager_1990,
    bitterness.utilisation_daniels_1996_whole,
    bitterness.utilisation_daniels_1996_pellets,
)
ALPHA_MG_L, WORT = 20 * 0.05 * 1000 / 10, 1.040
"""20 g of hops with 5 % of alpha acids in 10 L, and its gravity; Garetz's factor for gravity begins above it."""

MEASURED = (65.0, 0.82), (70.0, 0.70)
"""Apparent attenuation by mash temperature, as the equation's source measured it, as far as a brewer goes."""
FLATTER = (66.5, 70.0), (79.0, 86.0)
"""Mash temperatures (°C) over which the means of three yeasts lay so (%) in 44 brews (S. Terrill 2017, as quoted)."""

MALTS = (
    "Pilsner malt",
    "Vienna malt",
    "Munich malt, dark",
    "Caramel malt 20 L",
    "Caramel malt 40 L",
    "Caramel malt 80 L",
    "Brown malt",
    "Chocolate malt",
    "Black malt",
)
GRAIN_KG, WATER_L, SPARGE_L, KEEPS = 4.0, 12.0, 12.0, 1.0


def bitterness_by_minutes(boil_min: float) -> tuple[float, float, float]:
    """Bitterness of the hops above, boiled so long: by the book's usual model, and the least and most of all (IBU)."""
    found = [ALPHA_MG_L * model(boil_min=boil_min, gravity=WORT) for model in _MODELS]
    return found[0], min(found), max(found)


def _minutes(name: str) -> str:
    steps = [*range(0, 61, 2)]
    all_of = [(float(at), *bitterness_by_minutes(at)) for at in steps]
    corners = [(at, low) for at, _, low, _ in all_of] + [(at, high) for at, _, _, high in reversed(all_of)]
    begins = (0.0, *(end for end, _ in KEPT))
    return curves_chart(
        name=name,
        title="Bitterness and scent by minutes",
        x=Axis("minutes in the boil", range(0, 61, 10)),
        y=Axis("IBU from 20 g of a 5 % hop in 10 L", range(0, 41, 10)),
        curves=[Curve("Tinseth 1997", [(at, ibu) for at, ibu, *_ in all_of], at=(59, all_of[-1][1] - 5))],
        grounds=[Ground("other published models", corners, at=(2, 34))],
        spans=[(begin, min(end, 60.0), words) for begin, (end, words) in zip(begins, KEPT, strict=False)],
    )


def attenuation_at(mash_c: float) -> float:
    """Apparent attenuation after a mash at this temperature, through the points that were measured (%)."""
    (first_c, first), *_ = MEASURED
    return 100 * first * mash.mash_temperature_effect(mash_c=mash_c) / mash.mash_temperature_effect(mash_c=first_c)


def _body(name: str) -> str:
    heats = [MEASURED[0][0] + step / 2 for step in range(13)]
    (cool, hot), (low, high) = FLATTER
    return curves_chart(
        name=name,
        title="Body by mash temperature",
        x=Axis("mash, °C", range(65, 72)),
        y=Axis("share that yeast takes, %", range(60, 91, 10)),
        curves=[
            Curve(
                "Chandrasekhar",
                [(heat, attenuation_at(heat)) for heat in heats],
                at=(67.7, 71.5),
                read=[(heat, 100 * share) for heat, share in MEASURED],
            )
        ],
        grounds=[Ground("Terrill 2017", [(cool, low), (hot, low), (hot, high), (cool, high)], at=(67.2, 82))],
        spans=[(65, 66.5, "dry and brisk"), (68, 71, "full, and sweeter")],
    )


def malt_colour(name: str) -> float:
    """Colour of a beer with a tenth of this malt, the rest pilsner malt (SRM)."""
    malt = next(it for it in ours("malts").records if it.name == name)
    return tint(given(malt.colour.typical, "°L", "colour", words="the pantry"), name).number


def _malts(name: str) -> str:
    colours = sorted((malt_colour(malt), malt) for malt in MALTS)
    glasses = [(malt, f"{srm:.0f} SRM", rgb(srm)) for srm, malt in colours]
    return glasses_chart(name=name, title="Malts from pale to roast", glasses=glasses)


def _tuns(name: str) -> str:
    grain = GRAIN_KG * GRAIN_DISPLACEMENT.number
    kept = GRAIN_KG * KEEPS
    first = WATER_L - kept
    return tuns_chart(
        name=name,
        title="A mash and a sparge",
        brim_l=22.0,
        tuns=[
            Tun("1. Mash", "4 kg of grain, 12 L of water", grain, WATER_L, 0.0),
            Tun("2. Run off", "the grain keeps 4 L of it, and extract", grain, kept, first),
            Tun("3. Sparge", "12 L more, stirred in", grain, kept + SPARGE_L, first),
            Tun("4. Run off", "it keeps 4 L again, thinner", grain, kept, first + SPARGE_L),
        ],
    )


DRAWINGS: Mapping[str, Callable[[str], str]] = {
    "bitterness-by-minutes": _minutes,
    "body-by-mash-temperature": _body,
    "malts-in-the-glass": _malts,
    "mash-and-sparge": _tuns,
}


def drawing(address: str) -> Markup | None:
    """The picture that an address names, as it stands in a page; `None` where it names none of ours."""
    name = address.removeprefix(SCHEME)
    made = DRAWINGS.get(name) if address.startswith(SCHEME) else None
    return Markup(made(f"drawn-{name}")) if made is not None else None
