"""Where the water and the wort go: volumes from the tap to the bottle.

Litres at 20 °C unless called hot. Absorption and displacement are apparent figures of practice, given by the caller.
How water swells with heat is in `density`.
"""

from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative
from gristbook.equations.registry import Valid, published


@published(source=sources.HANGHOFER, formula="O = d A + D")
def mash_volume(
    *,
    mash_water_l: Annotated[float, "L", "D", "water in the mash"],
    grain_kg: Annotated[float, "kg", "A", "mass of the dry grist"],
    displacement: Annotated[
        float,
        "L/kg",
        "d",
        "room that a kilogram of it takes under water: 0.67 by common practice, 0.8 by the source",
        Valid(0.65, 0.80, "published figures run from 0.67 to 0.80 L/kg"),
    ],
) -> Annotated[float, "L"]:
    """Room that a mash takes in its tun or pot, water and grain together [L].

    Refuses a negative amount.

    >>> mash_volume(mash_water_l=15, grain_kg=5, displacement=0.8)
    19.0
    """
    not_negative(mash_water_l, "mash water")
    not_negative(grain_kg, "a mass of grain")
    not_negative(displacement, "a displacement")
    return mash_water_l + displacement * grain_kg
