"""Where the water and the wort go: volumes from the tap to the bottle.

Litres at 20 °C unless called hot. Absorption and displacement are apparent figures of practice, given by the caller.
How water swells with heat is in `density`, and can be had from here too.
"""

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative
from gristbook.equations.density import hot_volume as hot_volume
from gristbook.equations.density import water_density as water_density
from gristbook.equations.registry import (
    Kilograms,
    Litres,
    LitresPerKilogram,
    Valid,
    equation,
)


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
