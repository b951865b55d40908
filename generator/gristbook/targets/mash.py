"""Water and heat of the mash, and all the brewing water."""

from __future__ import annotations

from gristbook.equations import mash as equations
from gristbook.equations import volumes as volume_equations
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.targets.conventions import GRAIN_DISPLACEMENT, GRAIN_HEAT, STEEP_WATER
from gristbook.targets.grist import Weights
from gristbook.targets.results import Grist, Mash, Volumes, Water
from gristbook.targets.volumes import dissolved_volume, joins_late
from gristbook.worksheet import Calculator, N, Value, settled


def mash(
    recipe: Recipe, brewhouse: Brewhouse, grist: Grist[N], volumes: Volumes[N], weights: Weights[N], calc: Calculator[N]
) -> Mash[N] | None:
    """The mash, or `None` where nothing is mashed.

    A sparged tun takes its mash water by thickness and the rest as sparge; a bag takes all the water at once.
    """
    if grist.mashed is None or not recipe.mash:
        return None
    absorbed = calc(
        volume_equations.absorbed_by_grain,
        "water that the grain keeps",
        grain_kg=grist.mashed,
        absorption=brewhouse.absorption,
    )
    total = _for_the_kettle(recipe, volumes, weights, absorbed, calc)
    first = recipe.mash[0]
    water: N | Value
    if first.water is not None:
        water = first.water
    elif brewhouse.mash == "bag":
        water = total
    else:
        water = calc(volume_equations.mash_water, "mash water", grain_kg=grist.mashed, thickness=brewhouse.thickness)
    sparge = None
    if brewhouse.mash != "bag" or first.water is not None:
        sparge = calc(volume_equations.sparge_water, "sparge water", total_l=total, mash_l=water)
    return Mash(
        grist.mashed,
        calc(volume_equations.mash_thickness, "thickness of the mash", mash_l=water, grain_kg=grist.mashed),
        water,
        sparge,
        calc(
            equations.strike_temperature_with_tun,
            "strike temperature",
            grain_kg=grist.mashed,
            water_l=water,
            tun_heat_l=brewhouse.tun_heat,
            grain_c=brewhouse.grain_temperature,
            mash_c=first.temperature,
            grain_heat=GRAIN_HEAT,
        ),
        calc(
            volume_equations.mash_volume,
            "room that the mash takes",
            mash_water_l=water,
            grain_kg=grist.mashed,
            displacement=GRAIN_DISPLACEMENT,
        ),
        absorbed,
    )


def water(
    recipe: Recipe, brewhouse: Brewhouse, grist: Grist[N], volumes: Volumes[N], weights: Weights[N], calc: Calculator[N]
) -> Water[N]:
    """All the brewing water: to the kettle, into the grain, and the top-up."""
    kept = tuple(
        calc(volume_equations.absorbed_by_grain, f"water that the {what} grain keeps", grain_kg=mass, absorption=a)
        for what, mass, a in (
            ("mashed", grist.mashed, brewhouse.absorption),
            ("steeped", grist.steeped, brewhouse.absorption),
        )
        if mass is not None
    )
    absorbed: N | float = (
        calc(volume_equations.total_volume, "water that the grain keeps", parts_l=kept) if kept else 0.0
    )
    to_kettle = _for_the_kettle(recipe, volumes, weights, absorbed, calc)
    total = to_kettle
    if volumes.top_up is not None:
        total = calc(volume_equations.total_volume, "all the brewing water", parts_l=(to_kettle, volumes.top_up))
    steep = None
    if grist.steeped is not None:
        steep = settled(
            calc(volume_equations.mash_water, "steeping water", grain_kg=grist.steeped, thickness=STEEP_WATER)
        )
    return Water(total, steep)


def _for_the_kettle(
    recipe: Recipe, volumes: Volumes[N], weights: Weights[N], absorbed: N | float, calc: Calculator[N]
) -> N:
    """Water that makes the wort at the start of the boil: malt extract brings some of the volume itself."""
    parts = tuple(
        dissolved_volume(sugar, mass, calc)
        for sugar, mass in zip(recipe.sugars, weights.sugars, strict=True)
        if sugar.from_malt and not sugar.into_fermenter and not joins_late(sugar, recipe)
    )
    dissolved: N | float = 0.0
    if parts:
        dissolved = calc(volume_equations.total_volume, "volume of the malt extract", parts_l=parts)
    return calc(
        volume_equations.total_brewing_water,
        "brewing water",
        boil_l=volumes.boil,
        absorbed_l=absorbed,
        dissolved_l=dissolved,
    )
