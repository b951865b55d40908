"""How water, and wort with it, swells with heat."""

from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative
from gristbook.equations.registry import Valid, checked_by_library, published
from gristbook.refusal import Refusal

_KELL = (
    "(999.83952 + 16.945176 {0} − 7.9870401·10⁻³ {0}² − 46.170461·10⁻⁶ {0}³ + 105.56302·10⁻⁹ {0}⁴"
    " − 280.54253·10⁻¹² {0}⁵) / (1 + 16.879850·10⁻³ {0})"
)
DENSITY: Final = f"ρ(x) = {_KELL.format('x')}"
"""What stands behind a formula that has the density of water in it."""


@published(
    source=sources.KELL_1975,
    where="density at one atmosphere",
    formula=f"ρ = {_KELL.format('T')}",
)
def water_density(
    *, temperature: Annotated[float, "°C", "T", "temperature of the water", Valid(0, 150, "the span of the paper")]
) -> Annotated[float, "kg/m³"]:
    """Density of water at one atmosphere [kg/m³].

    Refuses a temperature where the formula no longer describes liquid water (below −30 or above 200 °C).

    >>> water_density(temperature=20)
    998.204
    """
    if not -30 <= temperature <= 200:
        raise Refusal(f"water is no liquid at {temperature:g} °C")
    t = temperature
    above = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 + t * -280.54253e-12)))
    )
    return above / (1 + 16.879850e-3 * t)


@checked_by_library(
    source=sources.KELL_1975,
    where="wort is taken to expand as water does",
    formula=f"V_h = V ρ(20) / ρ(T), {DENSITY}",
)
def hot_volume(
    *,
    cool_l: Annotated[float, "L", "V", "its volume at 20 °C"],
    temperature: Annotated[
        float, "°C", "T", "temperature at which it must fit", Valid(0, 150, "the span of the paper")
    ],
) -> Annotated[float, "L"]:
    """Room that a wort takes when hot [L]: 4 % more at the boil than at 20 °C.

    Refuses a negative volume.

    >>> hot_volume(cool_l=25, temperature=100)
    26.04
    """
    not_negative(cool_l, "a volume of wort")
    return cool_l * water_density(temperature=20) / water_density(temperature=temperature)
