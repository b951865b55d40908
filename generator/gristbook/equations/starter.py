"""Growing yeast in a starter: two published ways to tell how many cells a starter ends with, and what wort it takes.

A starter of two steps is the same equation twice, the cells of the first put into the second.
"""

import math
from itertools import pairwise
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import fraction, not_negative, positive
from gristbook.equations.gravity import CONCENTRATION, extract_concentration
from gristbook.equations.registry import REGRESSION, Valid, equation, published

# A hundred thousand million cells in so many litres of wort ended as so many thousand million, falling 9 to 2 °P.
_STANDING: Final = {20: 600, 8: 400, 4: 276, 2: 205, 1.5: 181, 1: 152, 0.8: 138, 0.5: 112}
_FALL: Final = 7.0
# The same as growth: million new cells for each millilitre and °P, by the million cells in a millilitre at the start.
_YIELDS: Final = [(100 / litres, (cells - 100) / litres / _FALL) for litres, cells in _STANDING.items()]

_TABLE: Final = Valid(5, 200, "the table runs from 20 L to half a litre for 100 thousand million cells")


@published(
    source=sources.WHITE_ZAINASHEFF_2010,
    where="table of starters that stand still, as what a litre of each adds; straight lines between its rows",
    formula=(
        "N_end = N + Y(N / V) V ΔP / 7, Y(x) = 25 at 5, 37.5 at 12.5, 44 at 25, 52.5 at 50, 54 at 100/1.5, 52 at 100,"
        " 47.5 at 125, 24 at 200"
    ),
)
def starter_cells_white_zainasheff_2010(
    *,
    cells: Annotated[float, "10⁹ cells", "N", "living cells at the start"],
    starter_l: Annotated[float, "L", "V", "the starter's wort"],
    fall: Annotated[
        float,
        "°P",
        "ΔP",
        "by how much its extract falls, 7 °P in the source",
        Valid(7, 7, "the table is for wort that falls from 9 to 2 °P"),
    ],
) -> Annotated[float, "10⁹ cells"]:
    """Cells at the end of a starter that stands still, now and then shaken [10⁹ cells].

    Refuses a negative number of cells or fall, or no wort.

    >>> starter_cells_white_zainasheff_2010(cells=100, starter_l=1, fall=7)
    152.0
    """
    not_negative(cells, "a number of cells")
    positive(starter_l, "a starter")
    not_negative(fall, "a fall of extract")
    return cells + _standing_yield(cells / starter_l) * starter_l * fall


@equation(
    held=REGRESSION,
    source=sources.TROESTER_2012,
    formula="N_end = N + g(N / E) E, g(x) = 1.4 up to 1.4, max(0, 2.33 − 0.67 x) otherwise",
)
def starter_cells_troester_2012(
    *,
    cells: Annotated[float, "10⁹ cells", "N", "living cells at the start"],
    extract_g: Annotated[float, "g", "E", "extract in the starter's wort"],
) -> Annotated[float, "10⁹ cells"]:
    """Cells at the end of a starter on a stirrer [10⁹ cells].

    Refuses a negative number of cells, or no extract.

    >>> starter_cells_troester_2012(cells=50, extract_g=100)
    190.0
    """
    not_negative(cells, "a number of cells")
    positive(extract_g, "the extract of a starter")
    return cells + _stirred_growth(cells / extract_g) * extract_g


@equation(
    source=sources.ASBC_EXTRACT,
    where="a balance of mass",
    formula=f"m = V c(SG) / p, {CONCENTRATION}",
)
def starter_extract(
    *,
    starter_l: Annotated[float, "L", "V", "wort of the starter, extract in it"],
    gravity: Annotated[float, "SG", "SG", "its gravity, about 1.036"],
    potential: Annotated[
        float, "fraction", "p", "share of the dried extract that is extract and not water, about 0.96"
    ],
) -> Annotated[float, "g"]:
    """Dried malt extract to weigh for a starter's wort [g]; boil it first, and cool it before the yeast goes in.

    Refuses a negative volume, a gravity that is not positive, or an extract that is none.

    >>> starter_extract(starter_l=2, gravity=1.04837, potential=0.96)
    261.6
    """
    not_negative(starter_l, "a starter")
    fraction(potential, "a potential")
    positive(potential, "a potential")
    return starter_l * extract_concentration(gravity=gravity) / potential


@equation(
    held=REGRESSION,
    source=sources.YEAST_MAKERS,
    where="75 to 85 % after 30 days in a refrigerator; that a like share dies every day is our reckoning",
    formula="v = v₃₀^(t / 30)",
)
def viability(
    *,
    days: Annotated[
        float,
        "d",
        "t",
        "since the pack was filled",
        Valid(0, 30, "the statement is for thirty days; nothing is known beyond"),
    ],
    at_thirty_days: Annotated[
        float,
        "fraction",
        "v₃₀",
        "share that lives after thirty days, 0.75 to 0.85",
        Valid(0.75, 0.85, "what makers state"),
    ],
) -> Annotated[float, "fraction"]:
    """Share of a refrigerated pack of liquid yeast that still lives: a guide, and no more than that [fraction].

    No published equation of age was found, and two packs of one age differ. Old yeast is best judged by a starter.
    Refuses negative days, or a share outside 0 to 1.

    >>> viability(days=30, at_thirty_days=0.80)
    0.80
    """
    not_negative(days, "an age")
    fraction(at_thirty_days, "a share of living cells")
    return math.pow(at_thirty_days, days / 30)


def _standing_yield(inoculation: float) -> float:
    not_negative(inoculation, "a number of cells")
    (low, below), (high, above) = _YIELDS[0], _YIELDS[-1]
    if inoculation <= low:
        return below
    if inoculation >= high:
        return above
    (low, below), (high, above) = next(rows for rows in pairwise(_YIELDS) if inoculation <= rows[1][0])
    return below + (above - below) * (inoculation - low) / (high - low)


def _stirred_growth(cells_per_gram: float) -> float:
    not_negative(cells_per_gram, "a number of cells")
    return 1.4 if cells_per_gram <= 1.4 else max(2.33 - 0.67 * cells_per_gram, 0.0)
