"""A record like any other of a thing that no pantry knows, from what its line says and what is taken for the rest."""

from __future__ import annotations

from typing import Any

from gristbook.pantry import records
from gristbook.pantry.doubts import usual
from gristbook.pantry.fields import CEREALS
from gristbook.pantry.names import VOCABULARIES
from gristbook.pantry.records import Spread
from gristbook.reading.line import Line
from gristbook.reading.quantity import Quantity
from gristbook.text.coloured import in_lovibond

ALPHA = "its alpha acids, as 6.5 % alpha"
MALT = "its colour, as 6 EBC"
DISSOLVES = "its extract as it is sold, as 80 % extract"
ATTENUATION = "its attenuation, as 75 % attenuation"
"""What a line has to say of a thing that no pantry knows."""

UNSAID_KIT = "25 ± 13 IBU in 23 L"
"""A hopped tin of which nobody says more, as it makes up (common practice, no source: from 12 to 40)."""

DARKEST = (("base", 12.0), ("caramel", 180.0), ("roast", 2000.0))
"""Up to how many °L a malt of which nobody says more is taken to be of a kind (common practice, no source)."""

EXTRACTS = {
    "base": (0.79, 0.72, 0.83),
    "caramel": (0.75, 0.67, 0.79),
    "roast": (0.7, 0.6, 0.78),
}
"""The extract of a malt by its kind where nobody says it, as wide as the pantry's own malts of such a colour differ."""

_KINDS = ("flaked", "torrefied", "smoked", "raw", "caramel", "roasted")
_SAID = "taken for granted (common practice, no source): no pantry has this"
_EATS_ON = 0.85
"""Yeast that goes further is likely to eat dextrins (common practice, no source)."""


def _taken(typical: float, low: float, high: float, unit: str = "fraction") -> Spread:
    return Spread(typical, low, high, unit, _SAID)


def assumed_hop(line: Line, alpha: Quantity | None, *, needed: bool) -> records.Hop | None:
    """A hop by its alpha acids, which are ``needed`` where it brings bitterness."""
    if alpha is None and (needed or line.get("alpha")):
        return None
    share = alpha.number if alpha else 0.08
    low, high = usual("alpha").about(share) if alpha else (-0.05, 0.08)
    return records.Hop(
        name=line.name.value,
        origin="",
        alpha=_taken(share, share + low, share + high),
        alpha_in_trials=None,
        oil=None,
        keeps=None,
        aroma="",
        pedigree="",
        use="dual",
        stand_ins=(),
        stand_ins_from="",
        **_told(line),
    )


def assumed_malt(line: Line) -> records.Malt | None:
    """A malt by its colour: its kind by its name, else by its colour, its grain by its name."""
    colour = line.quantity("colour")
    if colour is None:
        return None
    lovibond = colour.number if colour.base == "°L" else in_lovibond(colour.number)
    words = VOCABULARIES["malts"].words(line.name.value)
    kind = next((kind for kind in _KINDS if kind in words), "") or next(it for it, most in DARKEST if lovibond <= most)
    kind = "roast" if kind == "roasted" else kind
    cereals = (cereal for cereal in CEREALS if cereal in words or cereal.removesuffix("s") in words)
    typical, low, high = EXTRACTS.get(kind, EXTRACTS["base"])
    if line.get("extract") is None and line.get("potential") is None:
        what = f"nothing says its extract: {100 * typical:g} % is taken, give or take"
        line.warning(f"{what} {50 * (high - low):.0f}", "its extract, as 80 % extract", at=line.name)
    power = _taken(60.0, 35.0, 140.0, "°Lintner") if kind in ("base", "smoked") else _taken(0.0, 0.0, 5.0, "°Lintner")
    return records.Malt(
        name=line.name.value,
        kind=kind,
        cereal=next(cereals, "barley"),
        extract=_taken(typical, low, high),
        fine_coarse_difference=None,
        moisture=_taken(0.04, 0.03, 0.06),
        colour=_taken(lovibond, lovibond, lovibond, "°L"),
        diastatic_power=power,
        needs_mash=kind not in ("caramel", "roast"),
        usual_share=None,
        taste="",
        stand_ins=(),
        stand_ins_from="",
        **_told(line),
    )


def assumed_sugar(line: Line) -> records.Sugar | None:
    """A sugar by its extract; without a word on it, most of it ferments."""
    if line.get("extract") is None and line.get("potential") is None:
        return None
    return records.Sugar(
        name=line.name.value,
        kind="syrup" if "syrup" in line.name.word else "sugar",
        sold_as="",
        formula="",
        extract=_taken(0.8, 0.7, 1.0),
        moisture=_taken(0.0, 0.0, 0.0),
        colour=_taken(0.0, 0.0, 20.0, "°L"),
        fermentable=_taken(0.95, 0.7, 1.0),
        usual_share=None,
        density=None,
        allergen="",
        taste="",
        stand_ins=(),
        stand_ins_from="",
        **_told(line),
    )


def assumed_extract(line: Line) -> records.Extract | None:
    """A malt extract by its extract as it is sold: above nine tenths it is a powder."""
    stated = line.quantity("extract")
    if stated is None:
        return None
    return records.Extract(
        name=line.name.value,
        kind="dried" if stated.number > 0.9 else "liquid",
        cereal="barley",
        extract=_taken(stated.number, stated.number, stated.number),
        moisture=_taken(0.0, 0.0, 0.0),
        colour=_taken(5.0, 3.0, 12.0, "°L"),
        attenuation=_taken(0.74, 0.66, 0.8),
        density=None,
        taste="",
        stand_ins=(),
        stand_ins_from="",
        **_told(line),
    )


def assumed_yeast(line: Line) -> records.Yeast | None:
    """A yeast by its attenuation: a lager yeast where its name says so, and one that eats on where it goes far."""
    stated = line.quantity("attenuation")
    if stated is None:
        return None
    words = VOCABULARIES["yeasts"].words(line.name.value)
    cool = "lager" in words
    return records.Yeast(
        name=line.name.value,
        species="",
        kind="lager" if cool else "ale",
        pitch_rate=None,
        attenuation=_taken(stated.number, max(0.0, stated.number - 0.05), min(1.0, stated.number + 0.05)),
        temperature=_taken(11.0, 7.0, 16.0, "°C") if cool else _taken(20.0, 15.0, 28.0, "°C"),
        flocculation="",
        alcohol_tolerance=_taken(0.1, 0.08, 0.12),
        phenolic=False,
        diastatic="sometimes" if stated.number >= _EATS_ON or "farmhouse" in words else "no",
        **_told(line),
    )


def _told(line: Line) -> dict[str, Any]:
    return {"source": _SAID, "place": line.name.place}


def words(record: records.Record) -> str:
    """What a thing is taken as besides what its line says; a page prints no number of it."""
    match record:
        case records.Malt():
            return f"{record.kind} malt of {record.cereal}, with water as usual"
        case records.Sugar():
            return f"a {record.kind}, most of which ferments"
        case records.Extract():
            return f"{record.kind} extract of barley malt"
        case records.Yeast():
            return f"{record.kind} yeast of no known family"
    return "a hop that keeps as most do"
