"""How much yeast a wort needs, in cells, packs and grams."""

import math
from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Valid, published


@published(source=sources.FIX_1997, where="pitching rates: 0.75 for ale, 1.5 for lager", formula="N = rate × V × P")
def cells_needed(
    *,
    rate: Annotated[float, "10⁶ cells/(mL·°P)", "rate", "million cells for each millilitre and °P"],
    wort_l: Annotated[float, "L", "V", "wort to be pitched"],
    extract: Annotated[float, "°P", "P", "original extract"],
) -> Annotated[float, "10⁹ cells"]:
    """Living cells that a wort should be pitched with [10⁹ cells].

    Millions in a millilitre times litres are thousands of millions: the two factors of a thousand are one.
    Refuses a negative rate, volume or extract.

    >>> cells_needed(rate=0.75, wort_l=20, extract=12)  # the printed example: 180 thousand million
    180.0
    """
    not_negative(rate, "a pitching rate")
    not_negative(wort_l, "a volume of wort")
    not_negative(extract, "an extract")
    return rate * wort_l * extract


@published(source=sources.FIX_1997, where="pitching rate, from the cells pitched", formula="rate = N / (V × P)")
def pitch_rate(
    *,
    cells: Annotated[float, "10⁹ cells", "N", "living cells pitched"],
    wort_l: Annotated[float, "L", "V", "wort they go into"],
    extract: Annotated[float, "°P", "P", "original extract"],
) -> Annotated[float, "10⁶ cells/(mL·°P)"]:
    """Pitching rate that a number of cells comes to [10⁶ cells/(mL·°P)].

    Refuses negative cells, or a volume or extract that is not positive.

    >>> pitch_rate(cells=180, wort_l=20, extract=12)
    0.75
    """
    not_negative(cells, "a number of cells")
    positive(wort_l, "a volume of wort")
    positive(extract, "an extract")
    return cells / (wort_l * extract)


@published(source=sources.VAN_DEN_BERG_2003, where="cells in a gram of dried yeast", formula="N = g × n")
def dried_cells(
    *,
    mass_g: Annotated[float, "g", "g", "dried yeast"],
    cells_per_gram: Annotated[
        float, "10⁹ cells/g", "n", "cells in a gram", Valid(8, 18, "six strains; makers promise no more than 5 to 6")
    ],
) -> Annotated[float, "10⁹ cells"]:
    """Cells in dried yeast [10⁹ cells]; a figure with a wide range, by which dried yeast is not judged.

    Refuses a negative mass or number.

    >>> dried_cells(mass_g=11, cells_per_gram=10)
    110
    """
    not_negative(mass_g, "a mass of yeast")
    not_negative(cells_per_gram, "the cells in a gram")
    return mass_g * cells_per_gram


@published(source=sources.DEFINITION, where="the next whole number", formula="n = ⌈m / p⌉")
def dried_packs(
    *, mass_g: Annotated[float, "g", "m", "yeast wanted"], pack_g: Annotated[float, "g", "p", "yeast in a packet"]
) -> Annotated[float, "packs"]:
    """Packets of dried yeast to buy for one batch [packs]; the last digits of a sum open no other packet.

    Refuses a packet that holds nothing.

    >>> dried_packs(mass_g=16, pack_g=11)
    2.0
    """
    not_negative(mass_g, "a weight of yeast")
    positive(pack_g, "a packet")
    return float(math.ceil(mass_g / pack_g - 1e-6))
