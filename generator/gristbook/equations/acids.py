"""Acid for the mash or the sparge water: what a bottle of it can do, and how many millilitres that takes.

Strong acid burns: goggles and gloves, and the acid into the water, never the water into the acid. Food grade only, and
as its maker's label says.
"""

import math
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.atoms import molar_mass
from gristbook.equations.bounds import fraction, not_negative, positive
from gristbook.equations.registry import checked_by_library, equation

LACTIC_ACID: Final = molar_mass("C3H6O3")
PHOSPHORIC_ACID: Final = molar_mass("H3PO4")


@equation(source=sources.HENDERSON_HASSELBALCH, where="lactic acid, pKa 3.86", formula="n = 1 / (1 + 10^(3.86 − pH))")
def lactic_protons(
    *, ph: Annotated[float, "pH", "pH", "of the mash or the water that it goes into, in the end"]
) -> Annotated[float, "ratio"]:
    """Acid that a molecule of lactic acid really gives at a pH [ratio]: 0.97 in a mash.

    >>> lactic_protons(ph=5.4)
    0.972
    """
    return _given(3.86, ph)


@equation(
    source=sources.HENDERSON_HASSELBALCH,
    where="phosphoric acid, pKa 2.15 and 7.20; the third plays no part in beer",
    formula="n = 1 / (1 + 10^(2.15 − pH)) + 1 / (1 + 10^(7.20 − pH))",
)
def phosphoric_protons(
    *, ph: Annotated[float, "pH", "pH", "of the mash or the water that it goes into, in the end"]
) -> Annotated[float, "ratio"]:
    """Acid that a molecule of phosphoric acid really gives at a pH [ratio]: one and a little in a mash.

    >>> phosphoric_protons(ph=5.4)
    1.015
    """
    return _given(2.15, ph) + _given(7.20, ph)


@checked_by_library(source=sources.ATOMIC_MASSES, formula="c = 1000 w ρ n / M")
def acid_strength(
    *,
    strength: Annotated[float, "fraction", "w", "acid by weight, as the label says, 0.88 for 88 %"],
    density: Annotated[
        float, "g/mL", "ρ", "of what the bottle holds: lactic of 88 % 1.206, phosphoric of 10 % 1.053, of 75 % 1.579"
    ],
    molar_mass: Annotated[float, "g/mol", "M", "of the acid"],
    protons: Annotated[float, "ratio", "n", "acid that a molecule of it gives"],
) -> Annotated[float, "mEq/mL"]:
    """Acid in a millilitre of what the bottle holds [mEq/mL].

    Refuses a strength outside 0 to 1, a density or a molar mass that is not positive, or negative protons.

    >>> acid_strength(strength=0.88, density=1.206, molar_mass=LACTIC_ACID, protons=1)
    11.78
    """
    fraction(strength, "an acid's strength")
    positive(density, "a density")
    positive(molar_mass, "a molar mass")
    not_negative(protons, "protons")
    return 1000 * strength * density * protons / molar_mass


def _given(pka: float, ph: float) -> float:
    """Share of an acid that has given its proton away."""
    return 1 / (1 + math.pow(10, pka - ph))
