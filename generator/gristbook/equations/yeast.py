"""How much yeast a wort needs, in cells, packs and grams."""

import math

from gristbook.equations import sources
from gristbook.equations.bounds import no_more, not_negative, positive
from gristbook.equations.registry import (
    BillionCells,
    BillionCellsPerGram,
    BillionCellsPerPack,
    DegreesPlato,
    Fraction,
    Grams,
    GramsPerLitre,
    Litres,
    Packs,
    PitchRate,
    Valid,
    equation,
)


@equation(
    source=sources.FIX_1997,
    where="pitching rates: 0.75 for ale, 1.5 for lager",
    formula="N = rate × V × P",
    symbols={"rate": "rate", "wort_l": "V", "extract": "P"},
    valid={"rate": Valid(0.75, 1.5, "the two rates given are for ale and for lager")},
)
def cells_needed(*, rate: PitchRate, wort_l: Litres, extract: DegreesPlato) -> BillionCells:
    """Living cells that a wort should be pitched with [10⁹ cells].

    Millions in a millilitre times litres are thousands of millions: the two factors of a thousand are one.

    Parameters
    ----------
    rate : million cells for each millilitre and °P [10⁶ cells/(mL·°P)]
    wort_l : wort to be pitched [L]
    extract : original extract [°P]

    Raises
    ------
    ValueError
        A negative rate, volume or extract.

    >>> cells_needed(rate=0.75, wort_l=20, extract=12)  # the printed example: 180 thousand million
    180.0
    """
    not_negative(rate, "a pitching rate")
    not_negative(wort_l, "a volume of wort")
    not_negative(extract, "an extract")
    return rate * wort_l * extract


@equation(
    source=sources.FIX_1997,
    where="pitching rate, from the cells pitched",
    formula="rate = N / (V × P)",
    symbols={"cells": "N", "wort_l": "V", "extract": "P"},
)
def pitch_rate(*, cells: BillionCells, wort_l: Litres, extract: DegreesPlato) -> PitchRate:
    """Pitching rate that a number of cells comes to [10⁶ cells/(mL·°P)].

    Parameters
    ----------
    cells : living cells pitched [10⁹ cells]
    wort_l : wort they go into [L]
    extract : original extract [°P]

    Raises
    ------
    ValueError
        Negative cells, or a volume or extract that is not positive.

    >>> pitch_rate(cells=180, wort_l=20, extract=12)
    0.75
    """
    not_negative(cells, "a number of cells")
    positive(wort_l, "a volume of wort")
    positive(extract, "an extract")
    return cells / (wort_l * extract)


@equation(
    source=sources.DEFINITION,
    formula="packs = N / (N_pack × viability)",
    symbols={"cells": "N", "cells_per_pack": "N_pack", "viability": "viability"},
)
def packs_needed(*, cells: BillionCells, cells_per_pack: BillionCellsPerPack, viability: Fraction) -> Packs:
    """Packs of yeast that hold a number of living cells, not rounded [packs].

    Parameters
    ----------
    cells : living cells wanted [10⁹ cells]
    cells_per_pack : cells in a pack when it was filled [10⁹ cells/pack]
    viability : share of them that still lives [fraction]

    Raises
    ------
    ValueError
        Negative cells, an empty or dead pack, or a viability above 1.

    >>> packs_needed(cells=149.2, cells_per_pack=100, viability=1.0)
    1.492
    """
    not_negative(cells, "a number of cells")
    positive(cells_per_pack, "the cells in a pack")
    positive(viability, "a viability")
    no_more(viability, 1, "the living cells of a pack")
    return cells / (cells_per_pack * viability)


@equation(
    source=sources.VAN_DEN_BERG_2003,
    where="cells in a gram of dried yeast",
    formula="N = g × n",
    symbols={"mass_g": "g", "cells_per_gram": "n"},
    valid={"cells_per_gram": Valid(8, 18, "six strains; makers promise no more than 5 to 6")},
)
def dried_cells(*, mass_g: Grams, cells_per_gram: BillionCellsPerGram) -> BillionCells:
    """Cells in dried yeast [10⁹ cells]; a figure with a wide range, by which dried yeast is not judged.

    Parameters
    ----------
    mass_g : dried yeast [g]
    cells_per_gram : cells in a gram [10⁹ cells/g]

    Raises
    ------
    ValueError
        A negative mass or number.

    >>> dried_cells(mass_g=11, cells_per_gram=10)
    110
    """
    not_negative(mass_g, "a mass of yeast")
    not_negative(cells_per_gram, "the cells in a gram")
    return mass_g * cells_per_gram


@equation(source=sources.COMMON_PRACTICE, formula="dose = g / V", symbols={"mass_g": "g", "wort_l": "V"})
def dried_dose(*, mass_g: Grams, wort_l: Litres) -> GramsPerLitre:
    """Dose of dried yeast, which brewers judge by weight: 0.5 to 0.8 g/L for ale, 1.0 to 1.5 g/L for lager [g/L].

    Parameters
    ----------
    mass_g : dried yeast [g]
    wort_l : wort it goes into [L]

    Raises
    ------
    ValueError
        A negative mass, or a volume that is not positive.

    >>> dried_dose(mass_g=11, wort_l=20)
    0.55
    """
    not_negative(mass_g, "a mass of yeast")
    positive(wort_l, "a volume of wort")
    return mass_g / wort_l


@equation(source=sources.COMMON_PRACTICE, formula="g = dose × V", symbols={"dose": "dose", "wort_l": "V"})
def dried_yeast_for_dose(*, dose: GramsPerLitre, wort_l: Litres) -> Grams:
    """Dried yeast for a wanted dose [g].

    Parameters
    ----------
    dose : dried yeast in each litre [g/L]
    wort_l : wort to be pitched [L]

    Raises
    ------
    ValueError
        A negative dose or volume.

    >>> dried_yeast_for_dose(dose=0.5, wort_l=20)
    10.0
    """
    not_negative(dose, "a dose")
    not_negative(wort_l, "a volume of wort")
    return dose * wort_l


@equation(
    source=sources.DEFINITION,
    where="the next whole number",
    formula="n = ⌈p⌉",
    symbols={"packs": "p"},
)
def whole_packs(*, packs: Packs) -> Packs:
    """Packs to buy where none is split [packs]; a hair over a whole number does not open another.

    Parameters
    ----------
    packs : packs wanted [packs]

    >>> whole_packs(packs=1.49)
    2.0
    """
    not_negative(packs, "packs")
    return float(math.ceil(packs - 1e-6))


@equation(
    source=sources.COMMON_PRACTICE,
    formula="N = n c",
    symbols={"packs": "n", "cells_per_pack": "c"},
)
def cells_in_packs(*, packs: Packs, cells_per_pack: BillionCellsPerPack) -> BillionCells:
    """Cells that fresh packs of yeast bring [10⁹ cells].

    Parameters
    ----------
    packs : packs pitched [packs]
    cells_per_pack : cells in one of them [10⁹ cells/pack]

    >>> cells_in_packs(packs=2, cells_per_pack=100)
    200
    """
    not_negative(packs, "packs")
    not_negative(cells_per_pack, "cells")
    return packs * cells_per_pack


@equation(
    source=sources.DEFINITION,
    where="the next whole number",
    formula="n = ⌈m / p⌉",
    symbols={"mass_g": "m", "pack_g": "p"},
)
def dried_packs(*, mass_g: Grams, pack_g: Grams) -> Packs:
    """Packets of dried yeast to buy for one batch [packs].

    Parameters
    ----------
    mass_g : yeast wanted [g]
    pack_g : yeast in a packet [g]

    Raises
    ------
    ValueError
        A packet that holds nothing.

    >>> dried_packs(mass_g=16, pack_g=11)
    2.0
    """
    not_negative(mass_g, "a weight of yeast")
    positive(pack_g, "a packet")
    return float(math.ceil(mass_g / pack_g - 1e-6))


@equation(source=sources.DEFINITION, formula="n = Σ nᵢ", symbols={"parts": "nᵢ"})
def total_packs(*, parts: tuple[Packs, ...]) -> Packs:
    """Packets for several batches, added up [packs].

    Parameters
    ----------
    parts : packets for each batch [packs]

    >>> total_packs(parts=(2, 1))
    3.0
    """
    return math.fsum(parts)


@equation(
    source=sources.DEFINITION,
    formula="N = N₀ v",
    symbols={"cells": "N₀", "viability": "v"},
)
def living_cells(*, cells: BillionCells, viability: Fraction) -> BillionCells:
    """Cells of a pack that still live [10⁹ cells].

    Parameters
    ----------
    cells : cells when the pack was filled [10⁹ cells]
    viability : share of them that lives [fraction]

    >>> living_cells(cells=200, viability=0.80)
    160.0
    """
    not_negative(cells, "a number of cells")
    no_more(viability, 1, "the living")
    return cells * viability
