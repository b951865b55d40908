"""Milligrams and bitterness: alpha acids, what of them counts, spread over the wort, thinned, summed and weighed."""

from typing import Annotated

from gristbook.equations import sources
from gristbook.equations.bounds import no_more, not_negative, positive
from gristbook.equations.registry import Valid, equation, published
from gristbook.refusal import Refusal


@published(source=sources.TINSETH_1997, where="mg/L of added alpha acids", formula="alpha = g × AA × 1000")
def alpha_acids(
    *,
    hops_g: Annotated[float, "g", "g", "mass of the hops"],
    alpha: Annotated[float, "fraction", "AA", "alpha acids as a fraction of that mass, 0.05 for 5 %"],
) -> Annotated[float, "mg"]:
    """Alpha acids that an addition of hops brings [mg].

    Refuses a negative mass, or a fraction outside 0 to 1.

    >>> alpha_acids(hops_g=28.3495, alpha=0.05)
    1417.475
    """
    not_negative(hops_g, "a mass of hops")
    not_negative(alpha, "a share of alpha acids")
    no_more(alpha, 1, "the alpha acids of a hop")
    return hops_g * alpha * 1000


@published(
    source=sources.TINSETH_1997,
    where="mg/L of added alpha acids, the same from another packet",
    formula="g' = g × AA / AA'",
)
def hops_for_packet(
    *,
    hops_g: Annotated[float, "g", "g", "mass of the hops as planned"],
    alpha: Annotated[float, "fraction", "AA", "alpha acids that the plan was made with"],
    packet_alpha: Annotated[float, "fraction", "AA'", "alpha acids that the packet says"],
) -> Annotated[float, "g"]:
    """Weight of hops from another packet that brings the same alpha acids, and so the same bitterness [g].

    Refuses a negative mass, a negative share, or a packet without alpha acids.

    >>> hops_for_packet(hops_g=40, alpha=0.045, packet_alpha=0.036)
    50.0
    """
    not_negative(hops_g, "a mass of hops")
    not_negative(alpha, "a share of alpha acids")
    positive(packet_alpha, "the alpha acids of a packet")
    return hops_g * alpha / packet_alpha


@equation(source=sources.TINSETH_1997, formula="iso = alpha × U × F")
def iso_alpha(
    *,
    alpha_mg: Annotated[float, "mg", "alpha", "alpha acids added"],
    utilisation: Annotated[float, "fraction", "U", "share of them that a model says is used"],
    form_factor: Annotated[
        float,
        "ratio",
        "F",
        "1 as the model is published; above 1 where pellets are credited with more",
        Valid(1, 1.33, "published factors for pellets run from 1.10 to 1.33; 1 is the model as printed"),
    ],
) -> Annotated[float, "mg"]:
    """Iso-alpha acids that reach the wort from an addition [mg].

    Refuses a negative amount of any of the three.

    >>> iso_alpha(alpha_mg=1000, utilisation=0.25, form_factor=1.0)
    250.0
    """
    not_negative(alpha_mg, "a mass of alpha acids")
    not_negative(utilisation, "a utilisation")
    not_negative(form_factor, "a form factor")
    return alpha_mg * utilisation * form_factor


@published(source=sources.TINSETH_1997, where="IBU = utilisation × mg/L", formula="IBU = iso / V")
def bitterness(
    *,
    iso_alpha_mg: Annotated[float, "mg", "iso", "iso-alpha acids in the wort"],
    wort_l: Annotated[
        float, "L", "V", "the wort they are spread over; here the cool kettle volume at the end of the boil"
    ],
) -> Annotated[float, "IBU"]:
    """Bitterness of a wort: milligrams of iso-alpha acids in each litre [IBU].

    Refuses a negative mass, or a volume that is not positive.

    >>> bitterness(iso_alpha_mg=387.4, wort_l=22)
    17.61
    """
    not_negative(iso_alpha_mg, "a mass of iso-alpha acids")
    positive(wort_l, "a volume of wort")
    return iso_alpha_mg / wort_l


@equation(
    source=sources.TINSETH_1997,
    where="IBU = utilisation × mg/L, solved for the hops",
    formula="g = IBU × V / (U × F × AA × 1000)",
)
def hops_for_bitterness(
    *,
    bitterness: Annotated[float, "IBU", "IBU", "wanted bitterness of the wort in the kettle"],
    wort_l: Annotated[float, "L", "V", "cool kettle volume at the end of the boil"],
    alpha: Annotated[float, "fraction", "AA", "alpha acids as a fraction of the hops"],
    utilisation: Annotated[float, "fraction", "U", "share of them that a model says is used"],
    form_factor: Annotated[float, "ratio", "F", "1 as the model is published"],
) -> Annotated[float, "g"]:
    """Hops that bring a wanted bitterness [g].

    Refuses hops that can bring no bitterness (no alpha acids, no time in the boil), or a negative amount.

    >>> hops_for_bitterness(bitterness=13, wort_l=11, alpha=0.045, utilisation=0.24042, form_factor=1.0)
    13.22
    """
    not_negative(bitterness, "a bitterness")
    positive(wort_l, "a volume of wort")
    if not (alpha > 0 and utilisation > 0 and form_factor > 0):
        raise Refusal("hops without alpha acids, or without time to give them, bring no bitterness in any amount")
    return bitterness * wort_l / (utilisation * form_factor * alpha * 1000)


@equation(source=sources.COMMON_PRACTICE, formula="balance = IBU / (1000 × (SG − 1))")
def bitterness_ratio(
    *,
    bitterness: Annotated[float, "IBU", "IBU", "bitterness of the beer"],
    gravity: Annotated[float, "SG", "SG", "original gravity"],
) -> Annotated[float, "ratio"]:
    """Balance of bitterness to gravity: IBU for each point of original gravity [ratio].

    A brewer's rule of thumb for how bitter a beer will seem; it knows nothing of attenuation, salts or roast.
    Refuses a negative bitterness, or a gravity that is not above that of water.

    >>> bitterness_ratio(bitterness=25, gravity=1.050)
    0.5
    """
    not_negative(bitterness, "a bitterness")
    if gravity <= 1:
        raise Refusal(f"a wort is heavier than water: {gravity:g} leaves no points to balance")
    return bitterness / (1000 * (gravity - 1))
