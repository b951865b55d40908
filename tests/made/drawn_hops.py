"""The bitterness of a drawn brew, by every model that is printed, each as likely as the others."""

from __future__ import annotations

from itertools import pairwise

import drawn_formulas as of
import numpy as np
from drawn_brew import Brew
from drawn_doubts import Array, typed

from gristbook.model.hop import Hop
from gristbook.model.moment import BeforePackaging, BeforeTheEnd, FirstWort, Stand

FIRST_WORT, PACKAGE = (0.85, 1.0, 1.15), (0.5, 0.75, 1.0)
"""First-wort hops against the whole boil; how fast hops age in what they are kept in."""


def bitterness(brew: Brew) -> Array:
    """IBU: the same model for all hops of a beer, and what the labels of hopped extracts say besides."""
    models = brew.decided.bitterness_models
    found = np.stack([by_model(brew, model) for model in models])
    lot = brew.doubts.lot("bitterness model", len(models))
    hops = found[lot, np.arange(brew.doubts.draws)] * brew.about_one("use of hops", "use of hops")
    for kit in brew.recipe.kits:
        label = brew.doubts.drawn(f"label of {kit.name}", typed(kit.bitterness, "label"))
        hops = hops + label * kit.volume.number / brew.into
    return hops


def by_model(brew: Brew, model: str) -> Array:
    """What the hops bring by one model."""
    total = np.zeros(brew.doubts.draws)
    thins = brew.from_kettle / brew.into
    for hop, grams in zip(brew.recipe.hops, brew.hops, strict=True):
        if isinstance(hop.use, BeforePackaging):
            continue
        minutes, worth, gravity = met(brew, hop)
        used = of.utilisation(model, minutes, worth, gravity, brew.brewhouse.altitude.number, hop.whole)
        brings = grams * alpha(brew, hop) * 1000 * used / brew.end * thins
        if isinstance(hop.use, FirstWort):
            brings = brings * brew.doubts.drawn("first wort", FIRST_WORT)
        total = total + brings
    if model == "garetz 1994":
        concentration = brew.into / brew.end if brew.decided.top_up is not None else np.ones(brew.doubts.draws)
        total = total / of.hopping_rate(total, concentration)
    return total


def met(brew: Brew, hop: Hop) -> tuple[Array, Array, Array]:
    """Minutes in the boil, what they are worth at sea level, and the wort's gravity meanwhile."""
    use, draws = hop.use, brew.doubts.draws
    if isinstance(use, Stand):
        assert use.air is None, "a pot that cools by itself is not drawn"
        minutes = brew.doubts.drawn("time of the stand", typed(use.minutes, "stand time"))
        hot = "temperature of the stand"
        start, end = (brew.doubts.drawn(hot, typed(it, "stand temperature")) for it in (use.start, use.end))
        worth = of.worth_in_the_boil(minutes, start, end)
        return worth, worth, brew.after_the_boil
    long = use.minutes.number if isinstance(use, BeforeTheEnd) else brew.recipe.boil.number
    here, at_sea_level = (of.isomerising(np.array(of.boils_at(m))) for m in (brew.brewhouse.altitude.number, 0.0))
    slower = float(here / at_sea_level)
    return np.full(draws, long), np.full(draws, long * slower), _gravity(brew, long)


def _gravity(brew: Brew, minutes: float) -> Array:
    """The mean over the boil; where something joins it, over the hop's own minutes, stretch by stretch."""
    joins = {it.minutes.number for it in brew.recipe.sugars if brew.late(it) and it.minutes is not None}
    if not joins:
        return (brew.before_the_boil + brew.after_the_boil) / 2
    if minutes <= 0:
        return brew.after_the_boil
    marks = sorted({minutes, 0.0, *(mark for mark in joins if mark < minutes)}, reverse=True)
    area = np.zeros(brew.doubts.draws)
    for start, end in pairwise(marks):
        area = area + (start - end) * (_part_way(brew, start, start) + _part_way(brew, end, start)) / 2
    return area / minutes


def _part_way(brew: Brew, before_the_end: float, joined_since: float) -> Array:
    litres = brew.boiled(brew.recipe.boil.number - before_the_end, joined_since)
    return of.gravity_of_extract(brew.extract(joined_since), litres)


def alpha(brew: Brew, hop: Hop) -> Array:
    """Alpha acids as the hops go in: one doubt of a variety for all its additions."""
    record = next(it for it in brew.pantry.hops.records if it.name == hop.name)
    assert hop.storage_index is None, "a later storage index is not drawn"
    fresh = brew.stated(f"alpha of {hop.name}", hop.alpha, "alpha", record.alpha)
    if hop.store is None:
        return fresh
    lost = hop.store.lost_in_six_months.number
    keeps = record.keeps
    ends = (0.1, 0.1) if keeps is None or keeps.low == keeps.high else (keeps.high + lost - 1, 1 - keeps.low - lost)
    loses = brew.doubts.drawn(f"how {hop.name} keeps", (lost - ends[0], lost, lost + ends[1]))
    stated = hop.store.package
    package = stated.number if stated is not None else brew.doubts.drawn("package of the hops", PACKAGE)
    slower = 2 ** ((hop.store.temperature.number - 20) / 15)
    return fresh * (1 - loses) ** (slower * package * hop.store.days.number / 180)
