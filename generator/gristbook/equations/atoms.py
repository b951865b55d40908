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


def count(symbol: str, formula: str) -> int:
    """Atoms of one kind in a molecule.

    >>> count("C", "C6H12O6·H2O"), count("C", "CaCl2")
    (6, 0)
    """
    return sum(number for part in formula.split("·") for found, number in _atoms(part) if found == symbol)


def _mass_of_part(part: str) -> float:
    return sum(ATOMIC_MASSES[symbol] * number for symbol, number in _atoms(part))


def _atoms(part: str) -> list[tuple[str, int]]:
    """Each symbol of a part and how many there are of it."""
    molecule = part.lstrip("0123456789")
    times = int(part.removesuffix(molecule) or 1)
    return [(symbol, times * int(number or 1)) for symbol, number in re.findall(_ATOM, molecule)]
