"""What of a grist sticks, stays raw or is missing: figures for the rows of advice, each with its line."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from math import inf

from gristbook.model.recipe import Malt
from gristbook.model.yeast import Yeast
from gristbook.sheet.value import Value
from gristbook.targets.advice.advice import Span
from gristbook.targets.advice.slip_figures import reckoned
from gristbook.targets.conventions import GRAIN_GIVES
from gristbook.targets.figures import Plan
from gristbook.targets.results import MaltFigures
from gristbook.targets.wort.small_mash import is_small

HUSKLESS = ("wheat", "rye", "oats", "spelt")
BOILED_FIRST = ("maize", "rice", "sorghum", "millet", "buckwheat")
"""Their starch opens hotter than a mash can be."""
HULLS_G_PER_KG = 20.0
"""Rice hulls that open a mash: a usual dose is 3 to 8 % of the grist (common practice, no source)."""
SLACK = 0.03
"""So far above the span of its family, a stated attenuation is odd (our own)."""


def _mashed(plan: Plan) -> tuple[MaltFigures, ...]:
    return tuple(line for line in plan.figures.grist.malts if line.malt.steep is None)


def _share(plan: Plan, label: str, of: Callable[[Malt], bool]) -> Value | None:
    """The share of the mashed grain, at the line of most of it; beside a small mash, extract counts as grain."""
    lines = _mashed(plan)
    found = [line for line in lines if of(line.malt)]
    if not found:
        return None
    whole = sum(line.mass.number for line in lines)
    if is_small(plan.recipe, plan.brewhouse):
        extract = sum(it.mass.number for it in plan.figures.grist.sugars if it.sugar.from_malt)
        whole += extract / GRAIN_GIVES.number
    share = sum(line.mass.number for line in found) / whole
    most = max(found, key=lambda line: line.mass.number).malt.place
    return reckoned(share, "fraction", label, "by weight, of what is mashed", most)


def huskless(plan: Plan) -> Value | None:
    """The share of wheat, rye, oats and spelt, and of flakes."""
    return _share(plan, "share without husks", lambda malt: malt.cereal in HUSKLESS or malt.kind == "flaked")


def rye_and_oats(plan: Plan) -> Value | None:
    """The share of rye and oats."""
    return _share(plan, "share of rye and oats", lambda malt: malt.cereal in ("rye", "oats"))


def unmalted(plan: Plan) -> Value | None:
    """The share of grain that is raw, flaked or torrefied."""
    return _share(plan, "share of unmalted grain", lambda malt: malt.kind in ("raw", "flaked", "torrefied"))


def raw(plan: Plan) -> Value | None:
    """The weight of a grain that has to be boiled before it is mashed."""
    lines = (line for line in _mashed(plan) if line.malt.kind == "raw" and line.malt.cereal in BOILED_FIRST)
    line = next(lines, None)
    weight = line.mass if line is not None else None
    return reckoned(weight.number, "kg", "raw grain", "its line", line.malt.place) if weight and line else None


def hulls(plan: Plan) -> bool:
    """Whether rice hulls hold the mash open."""
    grain = sum(line.mass.number for line in _mashed(plan))
    grams = sum(1000 * it.amount.number for it in plan.recipe.extras if it.name == "Rice hulls" and it.amount)
    return grams >= HULLS_G_PER_KG * grain > 0


def stated(plan: Plan) -> Value | None:
    """The attenuation of the first yeast."""
    return plan.recipe.yeasts[0].attenuation if plan.recipe.yeasts else None


def family(plan: Plan) -> Span:
    """How far the first yeast's family attenuates, with a little over."""
    return -inf, plan.recipe.yeasts[0].usual_attenuation[1] + SLACK


def ends(plan: Plan) -> Span:
    """A tenth below the family's least, or below three fifths of the extract."""
    least = min((yeast.usual_attenuation[0] for yeast in plan.recipe.yeasts), default=0.7)
    return min(least - 0.10, 0.60), inf


@dataclass(frozen=True, slots=True)
class _Named:
    """What a word of a style or a title promises, the least share of it, and how it is known by name, cereal or kind.

    A ``yeast`` is looked for among the yeasts, and all of them have to be so.
    """

    words: str
    what: str
    least: float
    known: str = ""
    yeast: Callable[[Yeast], bool] | None = None


def _family(*words: str) -> Callable[[Yeast], bool]:
    return lambda yeast: any(word in yeast.name.casefold() for word in words)


NAMED: tuple[_Named, ...] = (
    _Named("oatmeal|oat", "oats", 0.03, "oats|oat"),
    _Named("wei(ss|ß)bier|weizenbock|(hefe|dunkel)?weizen|berliner weisse|wit(bier)?|wheat", "wheat", 0.25, "wheat"),
    _Named("rye|roggenbier", "rye", 0.05, "rye"),
    _Named("rauchbier|smoked", "smoked malt", 0.02, "smoked"),
    _Named("(sweet|milk) stout", "lactose", 0.02, "lactose"),
    _Named("stout|porter|schwarzbier", "dark malt", 0.01, "roast(ed)?|brown|black|chocolate"),
    _Named("(munich )?dunkel", "Munich malt", 0.10, "munich"),
    _Named(
        "lager|pils|pilsner|helles|festbier|schwarzbier|märzen|rauchbier|bock|doppelbock|baltic porter|munich dunkel",
        "lager yeast",
        0.5,
        yeast=lambda yeast: yeast.kind == "lager",
    ),
    _Named("weissbier|weizenbock", "German wheat yeast", 0.5, yeast=_family("wheat", "weizen", "weissbier")),
    _Named("saison", "saison yeast", 0.5, yeast=_family("saison", "farmhouse", "belgian")),
    _Named("witbier|dubbel|tripel|belgian [a-z ]+ ale", "Belgian yeast", 0.5, yeast=_family("belgian", "saison")),
)


def _promised(plan: Plan) -> tuple[_Named, Value] | None:
    """The first thing that the beer is named for and has too little of."""
    style = plan.recipe.style.name if plan.recipe.style else ""
    for row in NAMED:
        told = style if row.yeast else f"{style}, {plan.recipe.title}"
        if re.search(rf"\b({row.words})\b", told.casefold()):
            share = _of_yeast(row, plan) if row.yeast else _of_grist(row, plan)
            if round(share, 3) < row.least:
                return row, reckoned(share, "fraction", row.what, "by weight, or of the yeasts")
    return None


def _of_grist(row: _Named, plan: Plan) -> float:
    parts = plan.figures.grist
    lines = [(f"{it.malt.name} {it.malt.cereal} {it.malt.kind}", it.mass.number) for it in parts.malts]
    lines += [(f"{it.sugar.name} {it.sugar.kind}", it.mass.number) for it in parts.sugars]
    found = sum(mass for words, mass in lines if re.search(rf"\b({row.known})\b", words.casefold()))
    return found / sum(mass for _, mass in lines)


def _of_yeast(row: _Named, plan: Plan) -> float:
    yeasts = plan.recipe.yeasts
    return sum(1 for it in yeasts if row.yeast and row.yeast(it)) / len(yeasts) if yeasts else 1.0


def lacking(plan: Plan) -> Value | None:
    """The share of what the beer is named for, where it has too little of that."""
    found = _promised(plan)
    return found[1] if found else None


def least(plan: Plan) -> Span | None:
    """The least share of it that makes such a beer."""
    found = _promised(plan)
    return (found[0].least, inf) if found else None
