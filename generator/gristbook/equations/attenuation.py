"""How far the yeast goes: extract as it is and as a hydrometer shows it, and the share of it that is gone."""

from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive, side_by_side
from gristbook.equations.registry import REGRESSION, Valid, equation, published

_TRIAL = Valid(0.30 / 0.772, 0.82 / 0.772, "what mashes between 65 and 80 °C gave against one at 67 °C")

OriginalExtract = Annotated[float, "°P", "OE", "extract before fermentation"]
RealExtract = Annotated[float, "°P", "RE", "extract really left in the beer"]
ApparentExtract = Annotated[float, "°P", "AE", "extract of the beer as a hydrometer shows it"]


@published(source=sources.BALLING, formula="RE = 0.1808 OE + 0.8192 AE")
def real_extract(*, original: OriginalExtract, apparent: ApparentExtract) -> Annotated[float, "°P"]:
    """Extract really left in the beer [°P]; alcohol, being light, makes a hydrometer show less.

    Five sets of measured beers lie 0.10 to 0.19 °P above it (Cutaia, Reid and Speers 2009, Table III).

    >>> real_extract(original=12.388, apparent=2.561)
    4.337
    """
    return 0.1808 * original + 0.8192 * apparent


@equation(source=sources.BALLING, where="solved for AE", formula="AE = (RE − 0.1808 OE) / 0.8192")
def apparent_extract(*, original: OriginalExtract, real: RealExtract) -> Annotated[float, "°P"]:
    """Extract of the beer as a hydrometer shows it [°P]: `real_extract` the other way round.

    >>> apparent_extract(original=12.388, real=4.337)
    2.560
    """
    return (real - 0.1808 * original) / 0.8192


@equation(source=sources.DEFINITION, formula="AA = (OE − AE) / OE")
def apparent_attenuation(*, original: OriginalExtract, apparent: ApparentExtract) -> Annotated[float, "fraction"]:
    """Share of the extract that seems to be gone, by a hydrometer [fraction]; may pass 1 in a very dry beer.

    Refuses an original extract that is not positive.

    >>> apparent_attenuation(original=12.388, apparent=2.561)
    0.7933
    """
    positive(original, "an original extract")
    return (original - apparent) / original


@equation(source=sources.DEFINITION, formula="RA = (OE − RE) / OE")
def real_attenuation(*, original: OriginalExtract, real: RealExtract) -> Annotated[float, "fraction"]:
    """Share of the extract that is really gone [fraction].

    Refuses an original extract that is not positive.

    >>> real_attenuation(original=12.388, real=4.337)
    0.6499
    """
    positive(original, "an original extract")
    return (original - real) / original


@equation(held=REGRESSION, source=sources.ASBC_BEER_6B, formula="RDF = (OE − RE) / OE / (1 − 0.005161 RE)")
def real_degree_of_fermentation(*, original: OriginalExtract, real: RealExtract) -> Annotated[float, "fraction"]:
    """Share of the extract that is really gone, as the American method has it [fraction].

    It counts that fermentation makes less beer, by weight, than there was wort: a little above `real_attenuation`.
    Refuses an original extract that is not positive, or a real extract no beer has (193 °P, where the formula ends).

    >>> real_degree_of_fermentation(original=12.388, real=4.337)
    0.6647
    """
    positive(original, "an original extract")
    positive(1 - 0.005161 * real, "what the formula divides by")
    return (original - real) / original / (1 - 0.005161 * real)


@equation(source=sources.BALLING, where="follows from RE = 0.1808 OE + 0.8192 AE", formula="RA = 0.8192 AA")
def real_from_apparent_attenuation(
    *, apparent_attenuation: Annotated[float, "fraction", "AA", "share that seems to be gone, by a hydrometer"]
) -> Annotated[float, "fraction"]:
    """Share of the extract that is really gone, by the share that seems to be [fraction].

    >>> real_from_apparent_attenuation(apparent_attenuation=0.7933)
    0.6499
    """
    return 0.8192 * apparent_attenuation


@equation(
    source=sources.CHANDRASEKHAR,
    where="the yeast's attenuation taken to hold for a mash at 67 °C",
    formula="AA_T = AA f",
)
def attenuation_at_mash_temperature(
    *,
    attenuation: Annotated[float, "fraction", "AA", "what the yeast gives in wort mashed at 67 °C"],
    effect: Annotated[float, "ratio", "f", "how many times that the mash's temperature gives", _TRIAL],
) -> Annotated[float, "fraction"]:
    """Attenuation to expect from a mash that is cooler or hotter than 67 °C: a guide [fraction].

    Refuses a negative effect.

    >>> attenuation_at_mash_temperature(attenuation=0.75, effect=0.70 / 0.772)
    0.680
    """
    not_negative(effect, "an effect")
    return attenuation * effect


@equation(source=sources.LAVOISIER_1789, where="the mean by mass of extract", formula="RA = Σ Eᵢ aᵢ / Σ Eᵢ")
def blended_attenuation(
    *,
    extracts_kg: Annotated[tuple[float, ...], "kg", "Eᵢ", "extract from each source: malt, malt extract, sugars"],
    attenuations: Annotated[
        tuple[float, ...], "fraction", "aᵢ", "real attenuation of each; 1 for sugars, 0 for lactose"
    ],
) -> Annotated[float, "fraction"]:
    """Share of the whole extract that ferments, by what each part of it does, in real terms [fraction].

    Refuses a negative extract, or no extract at all.

    >>> blended_attenuation(extracts_kg=(2.8336, 0.38), attenuations=(0.8192 * 0.74, 0))
    0.5345
    """
    side_by_side(extracts_kg, attenuations, "extracts and attenuations")
    for extract_kg in extracts_kg:
        not_negative(extract_kg, "an extract")
    positive(sum(extracts_kg), "the whole extract")
    gone_kg = sum(extract_kg * gone for extract_kg, gone in zip(extracts_kg, attenuations, strict=True))
    return gone_kg / sum(extracts_kg)


@equation(source=sources.DEFINITION, where="real attenuation, solved for RE", formula="RE = OE (1 − RA)")
def real_extract_after(
    *,
    original: OriginalExtract,
    real_attenuation: Annotated[float, "fraction", "RA", "share of the extract that is really gone"],
) -> Annotated[float, "°P"]:
    """Extract really left when this share of it has fermented [°P].

    >>> real_extract_after(original=9.946, real_attenuation=0.8192 * 0.72)
    4.080
    """
    return original * (1 - real_attenuation)
