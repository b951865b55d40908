"""Mash efficiency by the load: what the brewhouse's mash dissolves, and what share of that the grist lets go.

A stated efficiency is that of the brewhouse's ordinary grist. What its mash dissolves follows from it once, and holds
for every grist; the balance of the wort, sparged or not, says how much of that runs off this one.
"""

from __future__ import annotations

from dataclasses import replace

from gristbook.equations import extract, kettle, runnings
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Malt, Recipe, Sugar
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import less, share_of, sum_of
from gristbook.sheet.value import Value, apply, given, number, settled
from gristbook.targets.conventions import BASE_MALT, GRAIN_ROOM, MOST_CONVERTED, USUAL_BOIL
from gristbook.targets.wort.grist import (
    Efficiency,
    Weights,
    as_gravity,
    as_weighed,
    fruit_in_kettle,
    wanted_gravity,
    weight_of,
    yield_of,
)
from gristbook.targets.wort.infusions import in_the_mash
from gristbook.targets.wort.small_mash import THICKNESS, is_small
from gristbook.targets.wort.volumes import early_room

CONVERSION = "conversion"
LAUTER = "lauter efficiency"
IN_ROUNDS = "weight and efficiency depend on each other, and are settled round by round"
HELD = f"held to {MOST_CONVERTED:.0%}, the most that any mash dissolves"

ROUNDS = 60
"""More than enough: each round of the settling below brings the weight ten times nearer."""
SETTLED = 1e-12


def by_conversion(brewhouse: Brewhouse) -> Brewhouse:
    """The brewhouse by what its mash dissolves, where its author states what comes out of its ordinary grist."""
    if brewhouse.efficiency is None:
        return brewhouse
    conversion = stated_conversion(brewhouse, brewhouse.efficiency)
    if conversion.number > MOST_CONVERTED:
        held = given(MOST_CONVERTED / conversion.number, "fraction", "what it is held to", words=HELD)
        conversion = (conversion * held).called(CONVERSION)
    return replace(brewhouse, efficiency=None, conversion=conversion)


def stated_conversion(brewhouse: Brewhouse, stated: Value) -> Value:
    """What a mash would have to dissolve for a stated efficiency of the brewhouse's ordinary grist.

    That is base malt alone which brings its batch to the gravity that the efficiency is stated at, boiled for an hour.
    """
    end = brewhouse.batch + brewhouse.left_in_kettle
    grain = settled(
        apply(
            runnings.grist_of_one_malt,
            "ordinary grist",
            gravity=as_gravity(brewhouse.ordinary_gravity, "gravity of an ordinary wort"),
            wort_l=end,
            potential=BASE_MALT,
            efficiency=stated,
        )
    )
    run_off = settled((end + brewhouse.boil_off * USUAL_BOIL).called("ordinary wort"))
    first = None if brewhouse.mash == "bag" else grain * (brewhouse.thickness - brewhouse.absorption)
    lauter = runs_off(brewhouse.absorption, grain, run_off, first, " of an ordinary grist")
    return share_of(stated, lauter, CONVERSION)


def by_load(recipe: Recipe, brewhouse: Brewhouse, weights: Weights, start: Value) -> Efficiency:
    """The efficiency of a grist whose weights are known; the heavier it is, the more extract stays in it.

    ``start`` is the wort in the kettle when the boil begins; what malt extract brings of it did not run off the grain.

    Raises
    ------
    Refusal
        The malt extract alone is more than that.
    """
    conversion = by_conversion(brewhouse).conversion
    mashed = [(malt, mass) for malt, mass in zip(recipe.malts, weights.malts, strict=True) if malt.steep is None]
    if not mashed:
        return Efficiency(conversion, conversion, None)
    grain = sum_of((settled(mass) for _, mass in mashed), "grain mashed")
    weighed = sum_of((as_weighed(mass, malt) for malt, mass in mashed), "grain mashed")
    room = early_room(recipe, weights.sugars)
    run_off, small = start, is_small(recipe, brewhouse)
    if room is not None:
        if room.number > start.number:
            raise Refusal(f"{room.number:.1f} L of malt extract would go into {start.number:.1f} L of wort")
        run_off = less(start, room, left="wort that runs off", label="wort that runs off")
    absorbed = (grain * brewhouse.absorption).called("water that the grain keeps")
    water = recipe.mash[0].water if recipe.mash else None
    if water and brewhouse.assumed and water.number > (run_off + absorbed).number:
        water = None  # whoever says more brews with other vessels than those that were taken for them
    if water is None and (small or brewhouse.mash != "bag"):
        water = (grain * (THICKNESS if small else brewhouse.thickness)).called("mash water")
    first = in_the_mash(recipe, brewhouse, grain, water)[0] - absorbed if water else None
    if small and first is not None:  # the rest of the water never sees its grain
        run_off, first = first.called("wort that runs off"), None
    lauter = runs_off(brewhouse.absorption, weighed, run_off, first)
    return Efficiency((conversion * lauter).called("mash efficiency"), conversion, lauter, grain, water, absorbed)


def for_shares(recipe: Recipe, brewhouse: Brewhouse, end_of_boil: Value, start: Value) -> Efficiency:
    """The efficiency of a grist of percentages, which rests on its weight, which rests on its efficiency.

    Raises
    ------
    Refusal
        The more of it there is, the more of its wort it keeps, and no weight reaches the gravity.
    """
    needed = kettle.extract_for_gravity(
        gravity=wanted_gravity(recipe).number,
        batch_l=recipe.batch.number,
        end_of_boil_l=end_of_boil.number,
        left_in_kettle_l=brewhouse.left_in_kettle.number,
    )
    needed -= sum(it.number for it in fruit_in_kettle(recipe))
    items: tuple[Malt | Sugar, ...] = (*recipe.malts, *recipe.sugars)
    shared = [(item, item.share.number) for item in items if item.share is not None]

    def weighed(efficiency: Value) -> float:
        brought = tuple(number(yield_of(item, brewhouse, efficiency)) for item, _ in shared)
        return extract.grist_mass(extract_kg=needed, shares=tuple(share for _, share in shared), yields=brought)

    whole = weighed(brewhouse.conversion)
    for _ in range(ROUNDS):
        masses = [
            given(whole * it.share.number, "kg", f"weight of {it.name}, found in rounds", words=IN_ROUNDS)
            if it.share is not None
            else weight_of(it)
            for it in items
        ]
        weights = Weights(tuple(masses[: len(recipe.malts)]), tuple(masses[len(recipe.malts) :]))
        found = by_load(recipe, brewhouse, weights, start)
        before, whole = whole, weighed(found.mash)
        if abs(whole - before) < SETTLED * before:
            return found
    if whole > (1 + 1e-6) * before:
        wanted = wanted_gravity(recipe).number
        raise Refusal(f"no weight of malt reaches {wanted:.3f}: the more of it there is, the more of its wort it keeps")
    return found


def runs_off(absorption: Value, grain: Value, run_off: Value, first: Value | None, whose: str = "") -> Value:
    """The share of the extract that runs off: by one well-mixed sparge, where not all of the wort runs off before.

    ``first`` is what runs off before the sparge (L), `None` where that is all.
    """
    run_offs: tuple[Value, ...] = (run_off,)
    if first is not None and 0 < first.number < run_off.number:
        run_offs = (first, less(run_off, first, left="the sparge"))
    return apply(
        runnings.lauter_efficiency_batch_sparged,
        LAUTER + whose,
        grain_kg=grain,
        absorption=absorption,
        room=GRAIN_ROOM,
        run_offs_l=run_offs,
    )
