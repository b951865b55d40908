"""What a brewhouse is like, from what its book says and what its brews showed: normal distributions of known spread.

The brewhouse has a mean of its own, which the book's setting guesses; each brew lies about that mean, and each reading
about its brew. What the setting is sure of, between one brew to come and the next, is all of that together. A reading
further from the middle than `SOFT` of its spreads pulls no harder than one just there, so that no single brew rules.
"""

from math import fsum, sqrt
from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import OWN, equation, published

SOFT: Final = 1.345
"""Spreads from the middle within which a reading has its whole weight: 95 % as good as a mean where nothing is odd."""

_MIDDLE: Final = (
    "m such that (m − m₀) / (s² − τ²) = Σ ψ((yᵢ − m) / dᵢ) / dᵢ, dᵢ = √(τ² + σᵢ²), ψ(x) = max(−1.345, min(1.345, x))"
)
_SPREAD: Final = (
    "s' = √(τ² + 1 / (1 / (s² − τ²) + Σ wᵢ / dᵢ²)), dᵢ = √(τ² + σᵢ²), wᵢ = 1.345 / max(1.345, |yᵢ − m| / dᵢ)"
)
_WHERE: Final = "section 2.5, normal data with known variance; weights after Huber 1964"


@equation(source=sources.HUBER_1964, where="1.345 as is usual", formula="w = 1.345 / max(1.345, |u|)")
def huber_weight(
    *,
    distance: Annotated[
        float,
        "standard deviations",
        "u",
        "from the middle, in the reading's own spreads, below nothing where it lies below",
    ],
) -> Annotated[float, "ratio"]:
    """How much a reading counts, by how far from the middle it lies [ratio].

    >>> huber_weight(distance=2.69)
    0.5
    """
    return 1.0 if abs(distance) <= SOFT else SOFT / abs(distance)


@published(source=sources.GELMAN_2013, where=_WHERE, formula=_MIDDLE)
def learned_mean(
    *,
    setting: Annotated[float, OWN, "m₀", "what the book says before any brew"],
    setting_spread: Annotated[float, OWN, "s", "one standard deviation of a brew about it, all doubts together"],
    brew_to_brew: Annotated[float, OWN, "τ", "the part of that by which brews of one brewhouse differ"],
    readings: Annotated[tuple[float, ...], OWN, "yᵢ", "what each brew showed"],
    reading_spreads: Annotated[tuple[float, ...], OWN, "σᵢ", "one standard deviation of each reading"],
) -> Annotated[float, OWN]:
    """What a brewhouse is like, or a yeast there, as the brews so far have it [the unit of its setting].

    It is the one point where the setting's pull and the readings' are even: the halved interval always holds it.
    Refuses to learn from no readings, or a setting that is no less sure than brews are alike.

    >>> learned_mean(setting=0.7, setting_spread=0.05, brew_to_brew=0.03, readings=(0.76,), reading_spreads=(0.04,))
    0.7234
    """
    own_variance, distances = _variances(setting_spread, brew_to_brew, readings, reading_spreads)
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


@published(source=sources.GELMAN_2013, where=_WHERE, formula=_SPREAD)
def learned_spread(
    *,
    middle: Annotated[float, OWN, "m", "what `learned_mean` gives"],
    setting_spread: Annotated[float, OWN, "s", "as there"],
    brew_to_brew: Annotated[float, OWN, "τ", "as there"],
    readings: Annotated[tuple[float, ...], OWN, "yᵢ", "as there"],
    reading_spreads: Annotated[tuple[float, ...], OWN, "σᵢ", "as there"],
) -> Annotated[float, OWN]:
    """One standard deviation of the next brew about what `learned_mean` gives [the unit of that].

    Refuses what `learned_mean` refuses.

    >>> learned_spread(
    ...     middle=0.7234, setting_spread=0.05, brew_to_brew=0.03, readings=(0.76,), reading_spreads=(0.04,)
    ... )
    0.0433
    """
    own_variance, distances = _variances(setting_spread, brew_to_brew, readings, reading_spreads)
    sure = fsum(
        huber_weight(distance=(reading - middle) / apart) / (apart * apart)
        for reading, apart in zip(readings, distances, strict=True)
    )
    return sqrt(brew_to_brew * brew_to_brew + 1 / (1 / own_variance + sure))


@equation(
    source=sources.DEFINITION,
    where="what mash and sugars do to attenuation is taken to have come out as planned",
    formula="a = a₀ AA / AA₀",
)
def attenuation_shown(
    *,
    measured: Annotated[float, "fraction", "AA", "apparent attenuation of the beer"],
    planned: Annotated[float, "fraction", "AA₀", "what the plan expected of the beer"],
    of_the_yeast: Annotated[float, "fraction", "a₀", "what the plan took the yeast to do by itself"],
) -> Annotated[float, "fraction"]:
    """Attenuation of a yeast by itself, as a brew of any mash and any grist shows it [fraction].

    Refuses a plan that expected nothing.

    >>> attenuation_shown(measured=0.72, planned=0.69, of_the_yeast=0.74)
    0.7722
    """
    positive(planned, "a planned attenuation")
    return of_the_yeast * measured / planned


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
