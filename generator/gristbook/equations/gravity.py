"""From extract to gravity and back: a hydrometer's reading, degrees Plato and kilograms in litres.

Gravities are at 20/20 °C, volumes at 20 °C. Extract is a mass and nothing here loses any; what a grist brings is in
`extract`.
"""

from collections.abc import Callable
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Valid, equation, published
from gristbook.refusal import Refusal

_CUBIC = "P = −616.868 + 1111.14 S − 630.272 S² + 135.997 S³"
CONCENTRATION: Final = "c(x) = 10 P(x) x · 0.998203, P(x) = −616.868 + 1111.14 x − 630.272 x² + 135.997 x³"
"""What stands behind a formula that has an extract concentration in it."""

_TABLE = Valid(1.000, 1.083, "the table that the cubic was fitted to ends at 20 °P")

WortGravity = Annotated[float, "SG", "S", "specific gravity of the wort", _TABLE]


@published(source=sources.ASBC_EXTRACT, where="cubic fitted to Table 1", formula=_CUBIC)
def plato_from_gravity(*, gravity: WortGravity) -> Annotated[float, "°P"]:
    """Extract of a wort, by its gravity [°P, grams of extract in 100 g of wort].

    As printed, so 1.000 gives −0.003 and not 0. Good to 0.01 °P inside the table.
    Refuses a gravity of 0 or below.

    >>> plato_from_gravity(gravity=1.048)
    11.912
    """
    positive(gravity, "a gravity")
    return _plato(gravity)


@published(source=sources.ASBC_EXTRACT, where="cubic fitted to Table 1, solved for S", formula=f"S such that {_CUBIC}")
def gravity_from_plato(
    *,
    extract: Annotated[
        float, "°P", "P", "extract of the wort", Valid(0, 20, "the table that the cubic was fitted to ends at 20 °P")
    ],
) -> Annotated[float, "SG"]:
    """Gravity of a wort, by its extract [20/20 °C]: `plato_from_gravity` the other way round.

    Beer's apparent extract may lie a little below 0 °P, and gives a gravity below 1.000.
    Refuses an extract that no liquid has: above 100 °P, or so far below 0 that the gravity would vanish.

    >>> gravity_from_plato(extract=12)
    1.04837
    """
    if not _plato(0) < extract <= 100:
        raise Refusal(f"no wort has {extract:g} °P")
    return _solve(extract, 1 + extract / 260, _plato, _plato_slope)


@equation(
    source=sources.ASBC_EXTRACT,
    where="with 0.998203 kg/L, the density of water at 20 °C",
    formula=f"c = 10 P S · 0.998203, {_CUBIC}",
)
def extract_concentration(*, gravity: WortGravity) -> Annotated[float, "g/L"]:
    """Extract in a litre of wort [g/L].

    Refuses a gravity of 0 or below.

    >>> extract_concentration(gravity=1.04837)
    125.58
    """
    positive(gravity, "a gravity")
    return _concentration(gravity)


@published(
    source=sources.ASBC_EXTRACT,
    where="solved for S; a balance of mass",
    formula=f"S such that 1000 E / V = 10 P S · 0.998203, {_CUBIC}",
)
def wort_gravity(
    *,
    extract_kg: Annotated[float, "kg", "E", "extract dissolved in the wort"],
    wort_l: Annotated[float, "L", "V", "volume of the wort at 20 °C, extract in it"],
) -> Annotated[float, "SG"]:
    """Gravity of a wort that holds this extract in this volume [20/20 °C].

    No extract gives 1.0000116, where the printed cubic has its zero. Above about 1.083 (216 g/L) the cubic leaves its
    table.
    Refuses a negative extract, no wort, or more extract than the volume can hold.

    >>> wort_gravity(extract_kg=2.88, wort_l=20)
    1.0554
    """
    not_negative(extract_kg, "an extract")
    positive(wort_l, "a volume of wort")
    grams_per_litre = 1000 * extract_kg / wort_l
    gravity = _solve(grams_per_litre, 1 + grams_per_litre / 2600, _concentration, _concentration_slope)
    if _plato(gravity) > 100:
        raise Refusal(f"{wort_l:g} L of wort cannot hold {extract_kg:g} kg of extract")
    return gravity


@equation(source=sources.ASBC_EXTRACT, where="a balance of mass", formula=f"E = V · 10 P S · 0.998203 / 1000, {_CUBIC}")
def wort_extract(
    *, gravity: WortGravity, wort_l: Annotated[float, "L", "V", "volume of the wort at 20 °C"]
) -> Annotated[float, "kg"]:
    """Extract in this volume of wort of this gravity [kg]: `wort_gravity` the other way round.

    Refuses a gravity of 0 or below, or a negative volume.

    >>> wort_extract(gravity=1.05542, wort_l=20)
    2.880
    """
    positive(gravity, "a gravity")
    not_negative(wort_l, "a volume of wort")
    return wort_l * _concentration(gravity) / 1000


def _plato(gravity: float) -> float:
    return -616.868 + 1111.14 * gravity - 630.272 * gravity * gravity + 135.997 * gravity * gravity * gravity


def _plato_slope(gravity: float) -> float:
    return 1111.14 - 2 * 630.272 * gravity + 3 * 135.997 * gravity * gravity


def _concentration(gravity: float) -> float:
    return 10 * _plato(gravity) * gravity * 0.998203


def _concentration_slope(gravity: float) -> float:
    return 10 * (_plato(gravity) + gravity * _plato_slope(gravity)) * 0.998203


def _solve(wanted: float, gravity: float, curve: Callable[[float], float], slope: Callable[[float], float]) -> float:
    """Newton's steps from a gravity near the answer; both curves only rise where wort lies, so there is one answer."""
    for _ in range(50):
        step = (curve(gravity) - wanted) / slope(gravity)
        gravity -= step
        if abs(step) < 1e-12:
            return gravity
    raise Refusal(f"no gravity gives {wanted:g}")
