"""Where the water and the wort go: volumes from the tap to the bottle.

Litres at 20 °C unless called hot. Absorption and displacement are apparent figures of practice, given by the caller.
How water swells with heat is in `density`, and can be had from here too.
"""

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.density import hot_volume as hot_volume
from gristbook.equations.density import water_density as water_density
from gristbook.equations.registry import (
    Grams,
    Kilograms,
    Litres,
    LitresPerHour,
    LitresPerKilogram,
    MillilitresPerGram,
    Minutes,
    Valid,
    equation,
)
from gristbook.refusal import Refusal


@equation(
    source=sources.DEFINITION,
    formula="V_k = V − V_a + V_l",
    symbols={"batch_l": "V", "added_in_fermenter_l": "V_a", "left_in_kettle_l": "V_l"},
)
def cool_kettle_volume(*, batch_l: Litres, left_in_kettle_l: Litres, added_in_fermenter_l: Litres) -> Litres:
    """Wort in the kettle at the end of the boil, as cool wort [L].

    Parameters
    ----------
    batch_l : wort in the fermenter at pitching, top-up in it [L]
    left_in_kettle_l : wort that stays in the kettle, with its extract, bitterness and colour [L]
    added_in_fermenter_l : water or dissolved extract that goes straight into the fermenter [L]

    Raises
    ------
    ValueError
        A negative volume, or more added than the batch holds.

    >>> cool_kettle_volume(batch_l=20, left_in_kettle_l=2, added_in_fermenter_l=0)
    22
    """
    not_negative(left_in_kettle_l, "what stays in the kettle")
    not_negative(added_in_fermenter_l, "what is added in the fermenter")
    positive(batch_l, "a batch")
    if added_in_fermenter_l > batch_l:
        raise Refusal(f"{added_in_fermenter_l:g} L added in the fermenter are more than the batch of {batch_l:g} L")
    return batch_l - added_in_fermenter_l + left_in_kettle_l


@equation(
    source=sources.DEFINITION,
    where="boil-off told as litres of cold water an hour",
    formula="V_b = V_k + b t / 60",
    symbols={"end_of_boil_l": "V_k", "boil_off": "b", "boil_min": "t"},
)
def boil_volume(*, end_of_boil_l: Litres, boil_off: LitresPerHour, boil_min: Minutes) -> Litres:
    """Wort in the kettle at the start of the boil, as cool wort [L].

    Parameters
    ----------
    end_of_boil_l : wort at the end of the boil, as cool wort [L]
    boil_off : water that steams away in an hour, as cold water [L/h]
    boil_min : length of the boil [min]

    >>> boil_volume(end_of_boil_l=22, boil_off=3, boil_min=60)
    25.0
    """
    not_negative(end_of_boil_l, "a volume of wort")
    not_negative(boil_off, "a boil-off")
    not_negative(boil_min, "a boil")
    return end_of_boil_l + boil_off * boil_min / 60


@equation(
    source=sources.COMMON_PRACTICE,
    formula="V_d = m a / 1000",
    symbols={"dry_hops_g": "m", "absorption": "a"},
)
def dry_hop_loss(*, dry_hops_g: Grams, absorption: MillilitresPerGram) -> Litres:
    """Beer that dry hops keep when it is drawn off them [L].

    Parameters
    ----------
    dry_hops_g : mass of the hops [g]
    absorption : beer that a gram of them keeps, about 6 mL by common practice [mL/g]

    >>> dry_hop_loss(dry_hops_g=30, absorption=6)
    0.18
    """
    not_negative(dry_hops_g, "a mass of hops")
    not_negative(absorption, "an absorption")
    return dry_hops_g * absorption / 1000


@equation(
    source=sources.DEFINITION,
    formula="V_p = V − V_l − V_d",
    symbols={"batch_l": "V", "left_in_fermenter_l": "V_l", "kept_by_dry_hops_l": "V_d"},
)
def packaged_volume(*, batch_l: Litres, left_in_fermenter_l: Litres, kept_by_dry_hops_l: Litres) -> Litres:
    """Beer that comes into bottles or a keg [L].

    Parameters
    ----------
    batch_l : wort in the fermenter at pitching [L]
    left_in_fermenter_l : what stays behind with the yeast [L]
    kept_by_dry_hops_l : what the dry hops keep [L]

    Raises
    ------
    ValueError
        A negative volume, or nothing left to package.

    >>> packaged_volume(batch_l=20, left_in_fermenter_l=1, kept_by_dry_hops_l=0.18)
    18.82
    """
    not_negative(left_in_fermenter_l, "what stays in the fermenter")
    not_negative(kept_by_dry_hops_l, "what dry hops keep")
    packaged_l = batch_l - left_in_fermenter_l - kept_by_dry_hops_l
    positive(packaged_l, "the beer left to package")
    return packaged_l


@equation(
    source=sources.COMMON_PRACTICE,
    where="apparent: cold water in, less cool wort out",
    formula="V_g = m a",
    symbols={"grain_kg": "m", "absorption": "a"},
)
def absorbed_by_grain(*, grain_kg: Kilograms, absorption: LitresPerKilogram) -> Litres:
    """Water that does not come out of the grain again [L].

    Parameters
    ----------
    grain_kg : mass of the dry grist [kg]
    absorption : what a kilogram of it keeps: a sparged tun 1.0, a bag drained 0.7, squeezed 0.5 [L/kg]

    >>> absorbed_by_grain(grain_kg=3.85, absorption=1.0)
    3.85
    """
    not_negative(grain_kg, "a mass of grain")
    not_negative(absorption, "an absorption")
    return grain_kg * absorption


@equation(
    source=sources.DEFINITION,
    formula="V_w = V_b + V_g − V_s",
    symbols={"boil_l": "V_b", "absorbed_l": "V_g", "dissolved_l": "V_s"},
)
def total_brewing_water(*, boil_l: Litres, absorbed_l: Litres, dissolved_l: Litres) -> Litres:
    """All the water that goes through mash and sparge, or straight into the kettle, cold [L].

    Parameters
    ----------
    boil_l : wort at the start of the boil, as cool wort [L]
    absorbed_l : what the grain keeps [L]
    dissolved_l : room taken by sugars and extracts that are dissolved in the kettle [L]

    Raises
    ------
    ValueError
        A negative volume, or more dissolved than the kettle is to hold.

    >>> total_brewing_water(boil_l=25, absorbed_l=3.85, dissolved_l=0)
    28.85
    """
    not_negative(boil_l, "a volume of wort")
    not_negative(absorbed_l, "what the grain keeps")
    not_negative(dissolved_l, "what is dissolved")
    water_l = boil_l + absorbed_l - dissolved_l
    not_negative(water_l, "brewing water")
    return water_l


@equation(source=sources.DEFINITION, formula="V_m = r m", symbols={"grain_kg": "m", "thickness": "r"})
def mash_water(*, grain_kg: Kilograms, thickness: LitresPerKilogram) -> Litres:
    """Water for a mash of this thickness [L].

    Parameters
    ----------
    grain_kg : mass of the dry grist [kg]
    thickness : water to a kilogram of grist [L/kg]

    >>> mash_water(grain_kg=5, thickness=3)
    15
    """
    not_negative(grain_kg, "a mass of grain")
    not_negative(thickness, "a thickness")
    return grain_kg * thickness


@equation(source=sources.DEFINITION, formula="V_sp = V_w − V_m", symbols={"total_l": "V_w", "mash_l": "V_m"})
def sparge_water(*, total_l: Litres, mash_l: Litres) -> Litres:
    """Water left for the sparge [L]; below 0 when the mash alone takes more than the whole.

    Parameters
    ----------
    total_l : all the brewing water [L]
    mash_l : what the mash takes of it [L]

    >>> sparge_water(total_l=28.85, mash_l=10.5)
    18.35
    """
    not_negative(total_l, "brewing water")
    not_negative(mash_l, "mash water")
    return total_l - mash_l


@equation(source=sources.DEFINITION, formula="r = V_m / m", symbols={"mash_l": "V_m", "grain_kg": "m"})
def mash_thickness(*, mash_l: Litres, grain_kg: Kilograms) -> LitresPerKilogram:
    """Water to a kilogram of grist in the mash [L/kg].

    Parameters
    ----------
    mash_l : water in the mash [L]
    grain_kg : mass of the dry grist [kg]

    >>> mash_thickness(mash_l=10.5, grain_kg=3.85)
    2.727
    """
    not_negative(mash_l, "mash water")
    positive(grain_kg, "a mass of grain")
    return mash_l / grain_kg


@equation(
    source=sources.COMMON_PRACTICE,
    formula="V_s = m v",
    symbols={"mass_kg": "m", "litres_per_kg": "v"},
)
def dissolving_volume(*, mass_kg: Kilograms, litres_per_kg: LitresPerKilogram) -> Litres:
    """Volume that a sugar or malt extract adds to the wort that it dissolves in [L].

    Parameters
    ----------
    mass_kg : its mass [kg]
    litres_per_kg : what a kilogram adds: dried malt extract 0.63, liquid 0.69 [L/kg]

    >>> dissolving_volume(mass_kg=3, litres_per_kg=0.63)
    1.89
    """
    not_negative(mass_kg, "a mass")
    not_negative(litres_per_kg, "a volume to a kilogram")
    return mass_kg * litres_per_kg


@equation(
    source=sources.HANGHOFER,
    formula="O = d A + D",
    symbols={"mash_water_l": "D", "grain_kg": "A", "displacement": "d"},
    valid={"displacement": Valid(0.65, 0.80, "published figures run from 0.67 to 0.80 L/kg")},
)
def mash_volume(*, mash_water_l: Litres, grain_kg: Kilograms, displacement: LitresPerKilogram) -> Litres:
    """Room that a mash takes in its tun or pot, water and grain together [L].

    Parameters
    ----------
    mash_water_l : water in the mash [L]
    grain_kg : mass of the dry grist [kg]
    displacement : room that a kilogram of it takes under water: 0.67 by common practice, 0.8 by the source [L/kg]

    >>> mash_volume(mash_water_l=15, grain_kg=5, displacement=0.8)
    19.0
    """
    not_negative(mash_water_l, "mash water")
    not_negative(grain_kg, "a mass of grain")
    not_negative(displacement, "a displacement")
    return mash_water_l + displacement * grain_kg
