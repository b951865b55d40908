"""What molecules weigh, out of the atoms in their formula."""

import re
from collections.abc import Mapping
from typing import Final

# Grams in a mole: the standard atomic weights of 2013 (`sources.ATOMIC_MASSES`), conventional where they are a range.
ATOMIC_MASSES: Final[Mapping[str, float]] = {
    "H": 1.008,
    "C": 12.011,
    "N": 14.007,
    "O": 15.999,
    "Na": 22.990,
    "Mg": 24.305,
    "P": 30.974,
    "S": 32.06,
    "Cl": 35.45,
    "K": 39.098,
    "Ca": 40.078,
}

_ATOM: Final = r"([A-Z][a-z]?)(\d*)"


def molar_mass(formula: str) -> float:
    """Grams in a mole of a substance, by its formula, water of crystallisation behind a point.

    Raises
    ------
    KeyError
        An atom that is not in the table.

    >>> molar_mass("CaSO4·2H2O")
    172.16
    """
    return sum(_mass_of_part(part) for part in formula.split("·"))


def _mass_of_part(part: str) -> float:
    atoms = part.lstrip("0123456789")
    times = int(part.removesuffix(atoms) or 1)
    return times * sum(ATOMIC_MASSES[symbol] * int(count or 1) for symbol, count in re.findall(_ATOM, atoms))
