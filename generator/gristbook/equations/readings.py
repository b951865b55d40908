"""What the instruments should show when all goes to plan: the corrections of `instruments`, the other way round."""

from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import positive
from gristbook.equations.density import DENSITY, water_density
from gristbook.equations.instruments import GLASS_PER_K
from gristbook.equations.registry import REGRESSION, checked_by_library, equation, published


@checked_by_library(
    source=sources.ISO_649,
    where="glass of 25·10⁻⁶ /°C, solved for the reading",
    formula=f"R = S ρ(T) / ρ(T_cal) × (1 + 25·10⁻⁶ (T − T_cal)), {DENSITY}",
)
def hydrometer_reading(
    *,
    gravity: Annotated[float, "SG", "S", "gravity of the sample, 20/20 °C"],
    sample_c: Annotated[float, "°C", "T", "temperature of the sample"],
    calibration_c: Annotated[float, "°C", "T_cal", "temperature that the hydrometer was made for"],
) -> Annotated[float, "SG"]:
    """What a hydrometer shows in a sample that is not at the hydrometer's own temperature [SG].

    Refuses a gravity that is not positive, or a temperature at which water is no liquid.

    >>> hydrometer_reading(gravity=1.0558, sample_c=40, calibration_c=20)
    1.0500
    """
    positive(gravity, "a gravity")
    water = water_density(temperature=sample_c) / water_density(temperature=calibration_c)
    return gravity * water * (1 + GLASS_PER_K * (sample_c - calibration_c))


@published(source=sources.TERRILL_2011, where="the wort correction factor, the other way round", formula="R = P f")
def refractometer_reading(
    *,
    extract: Annotated[float, "°P", "P", "extract of the wort"],
    factor: Annotated[float, "ratio", "f", "wort correction factor of the instrument, about 1.04"],
) -> Annotated[float, "°Bx"]:
    """What a refractometer shows in unfermented wort: sugar's scale, on which wort reads a little high [°Bx].

    >>> refractometer_reading(extract=12.5, factor=1.04)
    13.0
    """
    return extract * factor


@equation(
    held=REGRESSION,
    source=sources.NOVOTNY_2017,
    where="the linear fit, solved for the final reading",
    formula="R = f (FG − 1 + 0.002349 B_i) / 0.006276, B_i = R_i / f",
)
def refractometer_reading_of_beer(
    *,
    initial: Annotated[float, "°Bx", "R_i", "its reading in the wort before fermentation, uncorrected"],
    final_gravity: Annotated[float, "SG", "FG", "gravity of the beer"],
    factor: Annotated[float, "ratio", "f", "wort correction factor"],
) -> Annotated[float, "°Bx"]:
    """What a refractometer shows in the finished beer, whose alcohol bends the light too [°Bx].

    Refuses a factor that is not positive.

    >>> refractometer_reading_of_beer(initial=12.48, final_gravity=1.00947, factor=1.04)
    6.24
    """
    positive(factor, "a wort correction factor")
    return factor * (final_gravity - 1 + 0.002349 * initial / factor) / 0.006276
