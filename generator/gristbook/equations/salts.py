"""Brewing salts as their ions: what a gram in a litre adds, out of the masses of the atoms.

Say the water of crystallisation always: a gram of calcium chloride holds 361 mg of calcium dry, 273 mg as dihydrate.
Weigh salts twice; grams taken for ounces are 28 times too much.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.atoms import molar_mass
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import checked_by_library


@dataclass(frozen=True, slots=True)
class Ion:
    """An ion of brewing water: its formula, and how many charges it carries, whatever their sign."""

    formula: str
    charge: int
    alkaline: bool = False

    @property
    def molar_mass(self) -> float:
        """Grams in a mole."""
        return molar_mass(self.formula)


IONS: Final[Mapping[str, Ion]] = {
    "calcium": Ion("Ca", 2),
    "magnesium": Ion("Mg", 2),
    "sodium": Ion("Na", 1),
    "sulfate": Ion("SO4", 2),
    "chloride": Ion("Cl", 1),
    "bicarbonate": Ion("HCO3", 1, alkaline=True),
    "carbonate": Ion("CO3", 2, alkaline=True),
    "hydroxide": Ion("OH", 1, alkaline=True),
}


@checked_by_library(source=sources.ATOMIC_MASSES, formula="x = n M_ion / M_salt")
def ion_from_salt(
    *,
    ions: Annotated[float, "ratio", "n", "of the ion in one formula of the salt"],
    ion_molar_mass: Annotated[float, "g/mol", "M_ion", "of the ion"],
    salt_molar_mass: Annotated[float, "g/mol", "M_salt", "of the salt as it is weighed, its water in"],
) -> Annotated[float, "g/g"]:
    """Ion in a gram of salt [g/g].

    Refuses negative ions, or a molar mass that is not positive.

    >>> ion_from_salt(ions=1, ion_molar_mass=40.078, salt_molar_mass=172.171)  # calcium in gypsum
    0.2328
    """
    not_negative(ions, "a number of ions")
    positive(ion_molar_mass, "a molar mass")
    positive(salt_molar_mass, "a molar mass")
    return ions * ion_molar_mass / salt_molar_mass


@dataclass(frozen=True, slots=True)
class Salt:
    """A salt as it is weighed: its formula, and how many of each ion are in one of it."""

    formula: str
    ions: Mapping[str, int]

    @property
    def molar_mass(self) -> float:
        """Grams in a mole, water of crystallisation in it."""
        return molar_mass(self.formula)

    @property
    def equivalents(self) -> int:
        """Acid that a formula of the salt takes up: its charges of bicarbonate, carbonate or hydroxide."""
        return sum(n * IONS[ion].charge for ion, n in self.ions.items() if IONS[ion].alkaline)

    def share(self, ion: str) -> float:
        """Grams of the ion in a gram of the salt, 0 where it has none."""
        mass = IONS[ion].molar_mass
        return ion_from_salt(ions=self.ions.get(ion, 0), ion_molar_mass=mass, salt_molar_mass=self.molar_mass)


SALTS: Final[Mapping[str, Salt]] = {
    "gypsum": Salt("CaSO4·2H2O", {"calcium": 1, "sulfate": 1}),
    "calcium chloride, anhydrous": Salt("CaCl2", {"calcium": 1, "chloride": 2}),
    "calcium chloride dihydrate": Salt("CaCl2·2H2O", {"calcium": 1, "chloride": 2}),
    "epsom salt": Salt("MgSO4·7H2O", {"magnesium": 1, "sulfate": 1}),
    "magnesium chloride hexahydrate": Salt("MgCl2·6H2O", {"magnesium": 1, "chloride": 2}),
    "table salt": Salt("NaCl", {"sodium": 1, "chloride": 1}),
    "baking soda": Salt("NaHCO3", {"sodium": 1, "bicarbonate": 1}),
    # Chalk hardly dissolves by itself: above 400 to 500 mg/L it loses effect, unless carbon dioxide helps.
    "chalk": Salt("CaCO3", {"calcium": 1, "carbonate": 1}),
    "slaked lime": Salt("CaO2H2", {"calcium": 1, "hydroxide": 2}),
}


@checked_by_library(
    source=sources.ATOMIC_MASSES,
    where="the acid that bicarbonate, carbonate or hydroxide takes up",
    formula="c = 1000 m n / (M V)",
)
def alkalinity_from_salt(
    *,
    mass_g: Annotated[float, "g", "m", "salt, all of it dissolved"],
    equivalents: Annotated[
        float, "ratio", "n", "acid that one formula of it takes up: 1 for baking soda, 2 for chalk and slaked lime"
    ],
    molar_mass: Annotated[float, "g/mol", "M", "of the salt"],
    water_l: Annotated[float, "L", "V", "water that it goes into"],
) -> Annotated[float, "mEq/L"]:
    """Alkalinity that baking soda, dissolved chalk or slaked lime adds [mEq/L].

    Slaked lime burns eyes and skin: goggles and gloves, and no more than a pinch at a time.
    Refuses a negative amount, or no water.

    >>> alkalinity_from_salt(mass_g=1, equivalents=1, molar_mass=84.006, water_l=1)  # baking soda
    11.904
    """
    not_negative(mass_g, "a mass of salt")
    not_negative(equivalents, "equivalents")
    positive(molar_mass, "a molar mass")
    positive(water_l, "a volume of water")
    return 1000 * mass_g * equivalents / (molar_mass * water_l)
