"""What a glass of beer does to daylight, and the colour that the eye makes of it.

Only colour times path counts: 10 SRM through 1 cm looks like 2 SRM through 5 cm.
"""

import math
from functools import lru_cache
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative
from gristbook.equations.cie import OBSERVER_AND_DAYLIGHT
from gristbook.equations.registry import Valid, published

# From CIE XYZ to linear sRGB, as IEC 61966-2-1 prints it.
_TO_LINEAR_SRGB: Final = ((3.2406, -1.5372, -0.4986), (-0.9689, 1.8758, 0.0415), (0.0557, -0.2040, 1.0570))


@published(
    source=sources.DELANGE_SPECTRUM,
    formula="A = SRM/12.7 × (0.02465 e^(−(λ − 430)/17.591) + 0.97535 e^(−(λ − 430)/82.122))",
)
def absorbance(
    *,
    colour: Annotated[float, "SRM", "SRM", "of the beer"],
    wavelength: Annotated[float, "nm", "λ", "of the light", Valid(380, 780, "the visible spectrum")],
) -> Annotated[float, "A"]:
    """Absorbance of an average beer of this colour in a cell of 1 cm [A].

    The average is over 99 beers, some of them with fruit: a little redder than malt alone.
    Refuses a negative colour or wavelength.

    >>> absorbance(colour=12.7, wavelength=430)
    1.0
    """
    not_negative(colour, "a colour")
    not_negative(wavelength, "a wavelength")
    beyond = wavelength - 430
    return colour / 12.7 * (0.02465 * math.exp(-beyond / 17.591) + 0.97535 * math.exp(-beyond / 82.122))


def glass_xyz(srm: float, path_cm: float) -> tuple[float, float, float]:
    """Tristimulus values X, Y, Z of daylight seen through a glass of beer, where Y = 100 is the light without it.

    CIE 1931 observer (2°), illuminant D65, the spectrum of `absorbance`, sums at 5 nm from 380 to 780 nm (CIE 15).
    The glass itself, its curve, foam and haze are not in it. The light's way through the beer is in cm.
    Refuses a negative colour or path.

    >>> [round(value, 1) for value in glass_xyz(2, 5)]
    [64.2, 66.7, 29.8]
    """
    not_negative(srm, "a colour")
    not_negative(path_cm, "a path through beer")
    x = y = z = white = 0.0
    for wavelength, x_bar, y_bar, z_bar, daylight in OBSERVER_AND_DAYLIGHT:
        light = daylight * math.pow(10, -path_cm * absorbance(colour=srm, wavelength=wavelength))
        x, y, z = x + light * x_bar, y + light * y_bar, z + light * z_bar
        white += daylight * y_bar
    return 100 * x / white, 100 * y / white, 100 * z / white


@lru_cache(maxsize=4096)  # a beer's colour stands on all its pages, and a style's on those of all its beers
def glass_srgb(srm: float, path_cm: float) -> tuple[int, int, int]:
    """Colour of a glass of beer for a screen: red, green, blue from 0 to 255, in sRGB (IEC 61966-2-1).

    A screen cannot show the amber of beer from about 6 SRM in 5 cm up: its blue would be below nothing. Then as much
    white as it needs is mixed in at the same luminance, which keeps the dominant wavelength (CIE 15); to cut each
    channel off instead would turn brown towards red. The light's way through the beer is in cm.
    Refuses a negative colour or path.

    >>> glass_srgb(4, 5)
    (231, 170, 49)
    """
    xyz = glass_xyz(srm, path_cm)
    light = xyz[1] / 100
    linear = [
        math.fsum(factor * value for factor, value in zip(row, xyz, strict=True)) / 100 for row in _TO_LINEAR_SRGB
    ]
    least = min(linear)
    purity = light / (light - least) if least < 0 else 1.0
    red, green, blue = (_encoded(light + purity * (channel - light)) for channel in linear)
    return red, green, blue


def _encoded(linear: float) -> int:
    """One channel of sRGB in eight bits, clipped."""
    clipped = min(max(linear, 0.0), 1.0)
    curved = 12.92 * clipped if clipped <= 0.0031308 else 1.055 * math.pow(clipped, 1 / 2.4) - 0.055
    return round(255 * curved)
