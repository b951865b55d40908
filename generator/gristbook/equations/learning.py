"""What a brewhouse is like, from what its book says and what its brews showed: normal distributions of known spread.

The brewhouse has a mean of its own, which the book's setting guesses; each brew lies about that mean, and each reading
about its brew. What the setting is sure of, between one brew to come and the next, is all of that together. A reading
further from the middle than `SOFT` of its spreads pulls no harder than one just there, so that no single brew rules.
"""

from math import fsum, sqrt
from typing import Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Fraction, Litres, LitresPerHour, Ratio, StandardDeviations, equation

SOFT: Final = 1.345
"""Spreads from the middle within which a reading has its whole weight: 95 % as good as a mean where nothing is odd."""

_MIDDLE: Final = (
    "m such that (m − m₀) / (s² − τ²) = Σ ψ((yᵢ − m) / dᵢ) / dᵢ, dᵢ² = τ² + σᵢ², ψ(u) = u held between −1.345 and 1.345"
)
_SPREAD: Final = (
    "√(τ² + 1 / (1 / (s² − τ²) + Σ wᵢ / dᵢ²)), dᵢ² = τ² + σᵢ², wᵢ = 1, or 1.345 dᵢ / |yᵢ − m| where that is less"
)
_SYMBOLS: Final = {
    "setting": "m₀",
    "setting_spread": "s",
    "brew_to_brew": "τ",
    "readings": "yᵢ",
    "reading_spreads": "σᵢ",
}
_WITH_MIDDLE: Final = {key: symbol for key, symbol in _SYMBOLS.items() if key != "setting"} | {"middle": "m"}
_WHERE: Final = "section 2.5, normal data with known variance; weights after Huber 1964"


@equation(
    source=sources.HUBER_1964,
    where="1.345 as is usual",
    formula="w = 1.345 / |u|, 1 at most",
    symbols={"distance": "u"},
)
def huber_weight(*, distance: StandardDeviations) -> Ratio:
    """How much a reading counts, by how far from the middle it lies [ratio].

    Parameters
    ----------
    distance : from the middle, in the reading's own spreads, below nothing where it lies below [standard deviations]

    >>> huber_weight(distance=2.69)
    0.5
    """
    return 1.0 if abs(distance) <= SOFT else SOFT / abs(distance)


@equation(source=sources.GELMAN_2013, where=_WHERE, formula=_MIDDLE, symbols=_SYMBOLS)
def learned_share(
    *,
    setting: Fraction,
    setting_spread: Fraction,
    brew_to_brew: Fraction,
    readings: tuple[Fraction, ...],
    reading_spreads: tuple[Fraction, ...],
) -> Fraction:
    """A brewhouse's own efficiency, or a yeast's attenuation there, as the brews so far have it [fraction].

    Parameters
    ----------
    setting : what the book says before any brew [fraction]
    setting_spread : one standard deviation of a brew about it, all doubts together [fraction]
    brew_to_brew : the part of that by which brews of one brewhouse differ [fraction]
    readings : what each brew showed [fraction]
    reading_spreads : one standard deviation of each reading [fraction]

    Raises
    ------
    ValueError
        No readings, or a setting that is no less sure than brews are alike.

    >>> learned_share(setting=0.7, setting_spread=0.05, brew_to_brew=0.03, readings=(0.76,), reading_spreads=(0.04,))
    0.7234
    """
    return _middle(setting, setting_spread, brew_to_brew, readings, reading_spreads)


@equation(source=sources.GELMAN_2013, where=_WHERE, formula=_MIDDLE, symbols=_SYMBOLS)
def learned_boil_off(
    *,
    setting: LitresPerHour,
    setting_spread: LitresPerHour,
    brew_to_brew: LitresPerHour,
    readings: tuple[LitresPerHour, ...],
    reading_spreads: tuple[LitresPerHour, ...],
) -> LitresPerHour:
    """A brewhouse's own boil-off, as the brews so far have it [L/h].

    Parameters
    ----------
    setting : what the book says before any brew [L/h]
    setting_spread : one standard deviation of a brew about it, all doubts together [L/h]
    brew_to_brew : the part of that by which brews of one brewhouse differ [L/h]
    readings : what each brew showed [L/h]
    reading_spreads : one standard deviation of each reading [L/h]

    Raises
    ------
    ValueError
        No readings, or a setting that is no less sure than brews are alike.

    >>> learned_boil_off(setting=3, setting_spread=0.5, brew_to_brew=0.3, readings=(3.6,), reading_spreads=(0.4,))
    3.234
    """
    return _middle(setting, setting_spread, brew_to_brew, readings, reading_spreads)


@equation(source=sources.GELMAN_2013, where=_WHERE, formula=_MIDDLE, symbols=_SYMBOLS)
def learned_volume(
    *,
    setting: Litres,
    setting_spread: Litres,
    brew_to_brew: Litres,
    readings: tuple[Litres, ...],
    reading_spreads: tuple[Litres, ...],
) -> Litres:
    """What a brewhouse's vessels keep back, as the brews so far have it [L].

    Parameters
    ----------
    setting : what the book says before any brew [L]
    setting_spread : one standard deviation of a brew about it, all doubts together [L]
    brew_to_brew : the part of that by which brews of one brewhouse differ [L]
    readings : what each brew showed [L]
    reading_spreads : one standard deviation of each reading [L]

    Raises
    ------
    ValueError
        No readings, or a setting that is no less sure than brews are alike.

    >>> learned_volume(setting=1.5, setting_spread=0.5, brew_to_brew=0.3, readings=(2.1,), reading_spreads=(0.4,))
    1.734
    """
    return _middle(setting, setting_spread, brew_to_brew, readings, reading_spreads)


@equation(source=sources.GELMAN_2013, where=_WHERE, formula=_SPREAD, symbols=_WITH_MIDDLE)
def learned_share_spread(
    *,
    middle: Fraction,
    setting_spread: Fraction,
    brew_to_brew: Fraction,
    readings: tuple[Fraction, ...],
    reading_spreads: tuple[Fraction, ...],
) -> Fraction:
    """One standard deviation of the next brew about what `learned_share` gives [fraction].

    Parameters
    ----------
    middle : what `learned_share` gives [fraction]
    setting_spread, brew_to_brew, readings, reading_spreads : as there [fraction]

    >>> learned_share_spread(
    ...     middle=0.7234, setting_spread=0.05, brew_to_brew=0.03, readings=(0.76,), reading_spreads=(0.04,)
    ... )
    0.0433
    """
    return _spread(middle, setting_spread, brew_to_brew, readings, reading_spreads)


@equation(source=sources.GELMAN_2013, where=_WHERE, formula=_SPREAD, symbols=_WITH_MIDDLE)
def learned_boil_off_spread(
    *,
    middle: LitresPerHour,
    setting_spread: LitresPerHour,
    brew_to_brew: LitresPerHour,
    readings: tuple[LitresPerHour, ...],
    reading_spreads: tuple[LitresPerHour, ...],
) -> LitresPerHour:
    """One standard deviation of the next brew about what `learned_boil_off` gives [L/h].

    Parameters
    ----------
    middle : what `learned_boil_off` gives [L/h]
    setting_spread, brew_to_brew, readings, reading_spreads : as there [L/h]

    >>> learned_boil_off_spread(
    ...     middle=3.234, setting_spread=0.5, brew_to_brew=0.3, readings=(3.6,), reading_spreads=(0.4,)
    ... )
    0.433
    """
    return _spread(middle, setting_spread, brew_to_brew, readings, reading_spreads)


@equation(source=sources.GELMAN_2013, where=_WHERE, formula=_SPREAD, symbols=_WITH_MIDDLE)
def learned_volume_spread(
    *,
    middle: Litres,
    setting_spread: Litres,
    brew_to_brew: Litres,
    readings: tuple[Litres, ...],
    reading_spreads: tuple[Litres, ...],
) -> Litres:
    """One standard deviation of the next brew about what `learned_volume` gives [L].

    Parameters
    ----------
    middle : what `learned_volume` gives [L]
    setting_spread, brew_to_brew, readings, reading_spreads : as there [L]

    >>> learned_volume_spread(
    ...     middle=1.734, setting_spread=0.5, brew_to_brew=0.3, readings=(2.1,), reading_spreads=(0.4,)
    ... )
    0.433
    """
    return _spread(middle, setting_spread, brew_to_brew, readings, reading_spreads)


@equation(
    source=sources.DEFINITION,
    where="what mash and sugars do to attenuation is taken to have come out as planned",
    formula="a = a₀ AA / AA₀",
    symbols={"measured": "AA", "planned": "AA₀", "of_the_yeast": "a₀"},
)
def attenuation_shown(*, measured: Fraction, planned: Fraction, of_the_yeast: Fraction) -> Fraction:
    """Attenuation of a yeast by itself, as a brew of any mash and any grist shows it [fraction].

    Parameters
    ----------
    measured : apparent attenuation of the beer [fraction]
    planned : what the plan expected of the beer [fraction]
    of_the_yeast : what the plan took the yeast to do by itself [fraction]

    Raises
    ------
    ValueError
        A plan that expected nothing.

    >>> attenuation_shown(measured=0.72, planned=0.69, of_the_yeast=0.74)
    0.7722
    """
    positive(planned, "a planned attenuation")
    return of_the_yeast * measured / planned


def _middle(
    setting: float, spread: float, brew_sd: float, readings: tuple[float, ...], reading_sds: tuple[float, ...]
) -> float:
    """The one point where the setting's pull and the readings' are even: the halved interval always holds it."""
    own_variance, distances = _variances(spread, brew_sd, readings, reading_sds)
    low, high = min((setting, *readings)), max((setting, *readings))
    for _ in range(200):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        pulls = (
            max(-SOFT, min(SOFT, (reading - middle) / apart)) / apart
            for reading, apart in zip(readings, distances, strict=True)
        )
        low, high = (middle, high) if fsum(pulls) > (middle - setting) / own_variance else (low, middle)
    return high


def _spread(
    middle: float, spread: float, brew_sd: float, readings: tuple[float, ...], reading_sds: tuple[float, ...]
) -> float:
    own_variance, distances = _variances(spread, brew_sd, readings, reading_sds)
    sure = fsum(
        huber_weight(distance=(reading - middle) / apart) / (apart * apart)
        for reading, apart in zip(readings, distances, strict=True)
    )
    return sqrt(brew_sd * brew_sd + 1 / (1 / own_variance + sure))


def _variances(
    spread: float, brew_sd: float, readings: tuple[float, ...], reading_sds: tuple[float, ...]
) -> tuple[float, list[float]]:
    """The setting's doubt of the brewhouse's own mean, as a variance; each reading's spread about that mean."""
    positive(float(len(readings)), "the number of readings")
    not_negative(brew_sd, "a spread from brew to brew")
    own_variance = spread * spread - brew_sd * brew_sd
    positive(own_variance, "a setting's doubt, less the spread from brew to brew,")
    distances = [sqrt(brew_sd * brew_sd + sd * sd) for sd in reading_sds]
    for apart in distances:
        positive(apart, "the spread of a reading")
    return own_variance, distances
