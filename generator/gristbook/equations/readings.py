"""What the instruments should show when all goes to plan: the corrections of `instruments`, the other way round."""

from gristbook.equations import sources
from gristbook.equations.bounds import positive
from gristbook.equations.density import water_density
from gristbook.equations.instruments import GLASS_PER_K
from gristbook.equations.registry import Celsius, DegreesBrix, DegreesPlato, Ratio, SpecificGravity, equation


@equation(
    source=sources.ISO_649,
    where="glass of 25·10⁻⁶ /°C, solved for the reading",
    formula="R = S ρ(T) / ρ(T_cal) × (1 + 25·10⁻⁶ (T − T_cal))",
    symbols={"gravity": "S", "sample_c": "T", "calibration_c": "T_cal"},
)
def hydrometer_reading(*, gravity: SpecificGravity, sample_c: Celsius, calibration_c: Celsius) -> SpecificGravity:
    """What a hydrometer shows in a sample that is not at the hydrometer's own temperature [SG].

    Parameters
    ----------
    gravity : gravity of the sample, 20/20 °C [SG]
    sample_c : temperature of the sample [°C]
    calibration_c : temperature that the hydrometer was made for [°C]

    Raises
    ------
    ValueError
        A gravity that is not positive, or a temperature at which water is no liquid.

    >>> hydrometer_reading(gravity=1.0558, sample_c=40, calibration_c=20)
    1.0500
    """
    positive(gravity, "a gravity")
    water = water_density(temperature=sample_c) / water_density(temperature=calibration_c)
    return gravity * water * (1 + GLASS_PER_K * (sample_c - calibration_c))


@equation(
    source=sources.TERRILL_2011,
    where="the wort correction factor, the other way round",
    formula="R = P f",
    symbols={"extract": "P", "factor": "f"},
)
def refractometer_reading(*, extract: DegreesPlato, factor: Ratio) -> DegreesBrix:
    """What a refractometer shows in unfermented wort: sugar's scale, on which wort reads a little high [°Bx].

    Parameters
    ----------
    extract : extract of the wort [°P]
    factor : wort correction factor of the instrument, about 1.04 [ratio]

    >>> refractometer_reading(extract=12.5, factor=1.04)
    13.0
    """
    return extract * factor


@equation(
    source=sources.NOVOTNY_2017,
    where="the linear fit, solved for the final reading",
    formula="R = f (FG − 1 + 0.002349 B_i) / 0.006276, B_i = R_i / f",
    symbols={"initial": "R_i", "final_gravity": "FG", "factor": "f"},
)
def refractometer_reading_of_beer(
    *, initial: DegreesBrix, final_gravity: SpecificGravity, factor: Ratio
) -> DegreesBrix:
    """What a refractometer shows in the finished beer, whose alcohol bends the light too [°Bx].

    Parameters
    ----------
    initial : its reading in the wort before fermentation, uncorrected [°Bx]
    final_gravity : gravity of the beer [SG]
    factor : wort correction factor [ratio]

    Raises
    ------
    ValueError
        A factor that is not positive.

    >>> refractometer_reading_of_beer(initial=12.48, final_gravity=1.00947, factor=1.04)
    6.24
    """
    positive(factor, "a wort correction factor")
    return factor * (final_gravity - 1 + 0.002349 * initial / factor) / 0.006276
