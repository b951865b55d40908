"""What a hydrometer and a refractometer show, and what that means.

A refractometer's gravity of beer rests on fits to beers, and the fits differ by three points and more: the end of
fermentation, which a bottle's safety hangs on, is best read by hydrometer.
"""

from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import positive
from gristbook.equations.density import DENSITY, water_density
from gristbook.equations.pressure import fahrenheit
from gristbook.equations.registry import REGRESSION, Valid, equation, published

GLASS_PER_K: Final = 25e-6  # by how much of its room soda glass swells with each °C

# Terrill's fits are for beers that are done: not above this gravity, and not below this apparent attenuation.
TERRILL_HIGHEST_GRAVITY: Final = 1.014
TERRILL_LOWEST_ATTENUATION: Final = 0.61

WortReading = Annotated[float, "°Bx", "i", "reading of the wort, over the correction factor"]
BeerReading = Annotated[float, "°Bx", "f", "reading of the beer, over the correction factor"]


@published(
    source=sources.ISO_649,
    where="glass of 25·10⁻⁶ /°C; the sample is taken to swell as water does, by Kell 1975",
    formula=f"S = R ρ(T_cal) / ρ(T) / (1 + 25·10⁻⁶ (T − T_cal)), {DENSITY}",
)
def hydrometer_corrected(
    *,
    reading: Annotated[float, "SG", "R", "what the hydrometer shows"],
    sample_c: Annotated[
        float,
        "°C",
        "T",
        "temperature of the sample",
        Valid(0, 60, "warmer wort swells more than water, by 0.0003 at 40 °C (from memory)"),
    ],
    calibration_c: Annotated[float, "°C", "T_cal", "temperature that the hydrometer was made for, as printed on it"],
) -> Annotated[float, "SG"]:
    """Gravity of a sample that was not at the hydrometer's own temperature [SG].

    Brewers' printed tables leave the swelling of the glass out, and lie 0.0003 to 0.0007 higher at 25 to 49 °C.
    Cool hot wort first: the correction is large and uncertain, and hot wort breaks glass.
    Refuses a reading that is not positive, or a temperature at which water is no liquid.

    >>> hydrometer_corrected(reading=1.050, sample_c=40, calibration_c=20)
    1.0558
    """
    positive(reading, "a gravity")
    water = water_density(temperature=calibration_c) / water_density(temperature=sample_c)
    return reading * water / (1 + GLASS_PER_K * (sample_c - calibration_c))


@published(
    source=sources.LYONS_1992,
    where="for a hydrometer made for 59 °F, which is 15 °C",
    formula="S = R + (1.313454 − 0.132674 F + 2.057793·10⁻³ F² − 2.627634·10⁻⁶ F³) / 1000, F = 32 + 1.8 T",
)
def hydrometer_lyons_1992(
    *,
    reading: Annotated[float, "SG", "R", "what the hydrometer shows"],
    sample_c: Annotated[float, "°C", "T", "temperature of the sample", Valid(0, 70, "the span of its table")],
) -> Annotated[float, "SG"]:
    """Gravity of a sample that was not at 15 °C, by a polynomial that is often reprinted [SG].

    It adds points, where glass and density multiply, and leaves the glass out.
    Refuses a reading that is not positive.

    >>> hydrometer_lyons_1992(reading=1.050, sample_c=40)
    1.0568
    """
    positive(reading, "a gravity")
    f = fahrenheit(sample_c)
    return reading + (1.313454 - 0.132674 * f + 2.057793e-3 * f * f - 2.627634e-6 * f * f * f) / 1000


@equation(source=sources.TERRILL_2011, where="wort correction factor", formula="i = Bx / f")
def brix_corrected(
    *,
    reading: Annotated[float, "°Bx", "Bx", "what the refractometer shows"],
    factor: Annotated[
        float,
        "ratio",
        "f",
        "wort correction factor, 1.04 or what the instrument was found to have",
        Valid(1.02, 1.06, "1.04 is usual; each instrument has its own, found against a hydrometer"),
    ],
) -> Annotated[float, "°Bx"]:
    """Extract that a refractometer's reading stands for, as wort is not all sugar [°Bx].

    Refuses a factor that is not positive.

    >>> brix_corrected(reading=13.0, factor=1.04)
    12.5
    """
    positive(factor, "a correction factor")
    return reading / factor


@equation(
    source=sources.TERRILL_2011,
    where="cubic fit",
    formula=("FG = 1 − 0.0044993 i + 0.011774 f + 0.00027581 i² − 0.0012717 f² − 0.00000728 i³ + 0.000063293 f³"),
)
def final_gravity_terrill_2011_cubic(*, initial: WortReading, final: BeerReading) -> Annotated[float, "SG"]:
    """Gravity of finished beer, by refractometer [SG]; not for one above 1.014, or attenuated by less than 61 %.

    >>> final_gravity_terrill_2011_cubic(initial=12, final=6)
    1.01168
    """
    i, f = initial, final
    wort = -0.0044993 * i + 0.00027581 * i * i - 0.00000728 * i * i * i
    return 1 + wort + 0.011774 * f - 0.0012717 * f * f + 0.000063293 * f * f * f


@equation(source=sources.TERRILL_2011, where="linear fit", formula="FG = 1 − 0.00085683 i + 0.0034941 f")
def final_gravity_terrill_2011_linear(*, initial: WortReading, final: BeerReading) -> Annotated[float, "SG"]:
    """Gravity of finished beer, by refractometer, along a line [SG]; not above 1.014, nor under 61 % attenuated.

    >>> final_gravity_terrill_2011_linear(initial=12, final=6)
    1.01068
    """
    return 1 - 0.00085683 * initial + 0.0034941 * final


@equation(held=REGRESSION, source=sources.NOVOTNY_2017, where="linear fit", formula="FG = 1 − 0.002349 i + 0.006276 f")
def final_gravity_novotny_2017_linear(*, initial: WortReading, final: BeerReading) -> Annotated[float, "SG"]:
    """Gravity of fermenting or finished beer, by refractometer, along a line [SG].

    >>> final_gravity_novotny_2017_linear(initial=12, final=6)
    1.00947
    """
    return 1 - 0.002349 * initial + 0.006276 * final


@equation(
    held=REGRESSION,
    source=sources.NOVOTNY_2017,
    where="quadratic fit",
    formula="FG = 1 + 1.335·10⁻⁵ × i² − 3.239·10⁻⁵ × i f + 2.916·10⁻⁵ × f² − 0.002421 i + 0.006219 f",
)
def final_gravity_novotny_2017_quadratic(*, initial: WortReading, final: BeerReading) -> Annotated[float, "SG"]:
    """Gravity of fermenting or finished beer, by refractometer [SG].

    >>> final_gravity_novotny_2017_quadratic(initial=12, final=6)
    1.00890
    """
    i, f = initial, final
    return 1 + 1.335e-5 * i * i - 3.239e-5 * i * f + 2.916e-5 * f * f - 0.002421 * i + 0.006219 * f


@equation(
    source=sources.BONHAM,
    formula=(
        "FG = 1.001843 − 0.002318474 i − 0.000007775 i² − 0.000000034 i³ + 0.00574 f + 0.00003344 f² + 0.000000086 f³"
    ),
)
def final_gravity_bonham(*, initial: WortReading, final: BeerReading) -> Annotated[float, "SG"]:
    """Gravity of beer, by refractometer, after the cubic that is reprinted most [SG].

    >>> final_gravity_bonham(initial=14, final=7)
    1.00962
    """
    i, f = initial, final
    wort = 1.001843 - 0.002318474 * i - 0.000007775 * i * i - 0.000000034 * i * i * i
    return wort + 0.00574 * f + 0.00003344 * f * f + 0.000000086 * f * f * f
