"""Extract as a mass: what malts and sugars bring, what a grist must weigh, and where the extract goes."""

from gristbook.equations import sources
from gristbook.equations.bounds import fraction, no_more, not_negative, positive, side_by_side
from gristbook.equations.registry import Fraction, Kilograms, Litres, Valid, equation


@equation(
    source=sources.ASBC_MALT_4,
    formula="E = E_db (1 − M)",
    symbols={"fine_grind_dry_basis": "E_db", "moisture": "M"},
)
def as_is_potential(*, fine_grind_dry_basis: Fraction, moisture: Fraction) -> Fraction:
    """Share of a malt's weight, as it is weighed, that can become extract [fraction].

    Parameters
    ----------
    fine_grind_dry_basis : extract of the finely ground, dried malt, as its analysis says [fraction]
    moisture : water in the malt as it is [fraction]

    >>> as_is_potential(fine_grind_dry_basis=0.78, moisture=0.035)
    0.7527
    """
    fraction(fine_grind_dry_basis, "extract of dry malt")
    fraction(moisture, "moisture")
    return fine_grind_dry_basis * (1 - moisture)


@equation(
    source=sources.NOONAN_1996,
    formula="E = E_db / (1 + M) − 0.002",
    symbols={"coarse_grind_dry_basis": "E_db", "moisture": "M"},
)
def as_is_noonan(*, coarse_grind_dry_basis: Fraction, moisture: Fraction) -> Fraction:
    """Extract of a coarsely ground malt as it is weighed, by a brewer's short cut [fraction].

    It differs from the balance of mass, E_db (1 − M), by 0.1 point at 3.5 % of moisture, and the other way round by
    0.3 at 8 %: the balance is what this book uses.

    Parameters
    ----------
    coarse_grind_dry_basis : extract of the coarsely ground, dried malt, as its analysis says [fraction]
    moisture : water in the malt as it is [fraction]

    >>> as_is_noonan(coarse_grind_dry_basis=0.78, moisture=0.035)  # the printed example
    0.752
    """
    fraction(coarse_grind_dry_basis, "extract of dry malt")
    fraction(moisture, "moisture")
    return coarse_grind_dry_basis / (1 + moisture) - 0.002


@equation(
    source=sources.ASBC_MALT_4,
    formula="E = (E_db − d) (1 − M)",
    symbols={"fine_grind_dry_basis": "E_db", "fine_coarse_difference": "d", "moisture": "M"},
    valid={"fine_coarse_difference": Valid(0.01, 0.02, "malts differ by 1 to 2 points (from memory)")},
)
def coarse_as_is(*, fine_grind_dry_basis: Fraction, fine_coarse_difference: Fraction, moisture: Fraction) -> Fraction:
    """Extract of a malt as it is weighed, ground as coarsely as a brewer grinds it [fraction].

    Parameters
    ----------
    fine_grind_dry_basis : extract of the finely ground, dried malt, as its analysis says [fraction]
    fine_coarse_difference : what the coarse grind gives less, in the same analysis [fraction]
    moisture : water in the malt as it is [fraction]

    >>> coarse_as_is(fine_grind_dry_basis=0.81, fine_coarse_difference=0.015, moisture=0.04)
    0.7632
    """
    fraction(fine_grind_dry_basis, "extract of dry malt")
    fraction(fine_coarse_difference, "a difference of extracts")
    fraction(moisture, "moisture")
    no_more(fine_coarse_difference, fine_grind_dry_basis, "a difference of extracts")
    return (fine_grind_dry_basis - fine_coarse_difference) * (1 - moisture)


@equation(
    source=sources.DEFINITION,
    formula="Y = p η",
    symbols={"potential": "p", "efficiency": "η"},
)
def effective_yield(*, potential: Fraction, efficiency: Fraction) -> Fraction:
    """Share of a malt's weight that becomes extract in the kettle [fraction].

    Parameters
    ----------
    potential : extract of the malt as it is weighed, finely ground [fraction]
    efficiency : share of the potential that the mash, or a steep, really gives [fraction]

    >>> effective_yield(potential=0.80, efficiency=0.75)
    0.60
    """
    fraction(potential, "a potential")
    fraction(efficiency, "an efficiency")
    return potential * efficiency


@equation(
    source=sources.DEFINITION,
    formula="E = m p η",
    symbols={"mass_kg": "m", "potential": "p", "efficiency": "η"},
)
def grain_extract(*, mass_kg: Kilograms, potential: Fraction, efficiency: Fraction) -> Kilograms:
    """Extract that one malt of the mash brings into the kettle [kg].

    Parameters
    ----------
    mass_kg : mass of the malt as it is weighed [kg]
    potential : its extract, finely ground, as it is weighed [fraction]
    efficiency : share of the potential that the mash, or a steep, really gives [fraction]

    >>> grain_extract(mass_kg=5, potential=0.768, efficiency=0.75)
    2.88
    """
    not_negative(mass_kg, "a mass of malt")
    fraction(potential, "a potential")
    fraction(efficiency, "an efficiency")
    return mass_kg * potential * efficiency


@equation(source=sources.DEFINITION, formula="E = m p", symbols={"mass_kg": "m", "potential": "p"})
def dissolved_extract(*, mass_kg: Kilograms, potential: Fraction) -> Kilograms:
    """Extract of a sugar or a malt extract, which dissolves whole [kg].

    Parameters
    ----------
    mass_kg : mass as it is weighed [kg]
    potential : its share of extract; the rest is mostly water [fraction]

    >>> dissolved_extract(mass_kg=1, potential=0.96)
    0.96
    """
    not_negative(mass_kg, "a mass")
    fraction(potential, "a potential")
    return mass_kg * potential


@equation(source=sources.LAVOISIER_1789, formula="E = Σ eᵢ", symbols={"parts_kg": "e"})
def total_extract(*, parts_kg: tuple[Kilograms, ...]) -> Kilograms:
    """Extract of all parts together [kg].

    Parameters
    ----------
    parts_kg : extract of each part [kg]

    >>> total_extract(parts_kg=(2.1357, 0.1354))
    2.2711
    """
    return _sum(parts_kg, "an extract")


@equation(source=sources.DEFINITION, formula="m = Σ mᵢ", symbols={"parts_kg": "mᵢ"})
def total_mass(*, parts_kg: tuple[Kilograms, ...]) -> Kilograms:
    """Mass of all parts together [kg].

    Parameters
    ----------
    parts_kg : mass of each part [kg]

    >>> total_mass(parts_kg=(3.60, 0.25))
    3.85
    """
    return _sum(parts_kg, "a mass")


@equation(
    source=sources.LAVOISIER_1789,
    where="Σ m xᵢ yᵢ = E, solved for m",
    formula="m = E / Σ xᵢ yᵢ",
    symbols={"extract_kg": "E", "shares": "x", "yields": "y"},
)
def grist_mass(*, extract_kg: Kilograms, shares: tuple[Fraction, ...], yields: tuple[Fraction, ...]) -> Kilograms:
    """What a grist given in shares must weigh to bring this extract [kg].

    Parameters
    ----------
    extract_kg : extract wanted from the grist [kg]
    shares : each line's share of the grist by weight; 1 in all [fraction]
    yields : each line's extract by its weight: potential times efficiency, or the potential if it dissolves [fraction]

    >>> grist_mass(extract_kg=1.4282, shares=(0.5, 0.5), yields=(0.793 * 0.70, 0.778 * 0.70))
    2.597
    """
    not_negative(extract_kg, "an extract")
    side_by_side(shares, yields, "shares and yields")
    for part in (*shares, *yields):
        fraction(part, "a share or a yield")
    from_each_kg = sum(part * brings for part, brings in zip(shares, yields, strict=True))
    positive(from_each_kg, "the extract from a kilogram of the grist")
    return extract_kg / from_each_kg


@equation(source=sources.DEFINITION, formula="mᵢ = m x", symbols={"grist_kg": "m", "share": "x"})
def share_of_grist(*, grist_kg: Kilograms, share: Fraction) -> Kilograms:
    """Mass of one line of a grist given in shares [kg].

    Parameters
    ----------
    grist_kg : mass of the grist [kg]
    share : the line's share of it by weight [fraction]

    >>> share_of_grist(grist_kg=2.597, share=0.5)
    1.2985
    """
    not_negative(grist_kg, "a grist")
    fraction(share, "a share")
    return grist_kg * share


@equation(
    source=sources.LAVOISIER_1789,
    formula="Eᵢ = E v / V",
    symbols={"extract_kg": "E", "part_l": "v", "whole_l": "V"},
)
def extract_left(*, extract_kg: Kilograms, part_l: Litres, whole_l: Litres) -> Kilograms:
    """Extract that goes, or stays, with a part of a well-mixed wort [kg].

    Parameters
    ----------
    extract_kg : extract of the whole wort [kg]
    part_l : volume of the part [L]
    whole_l : volume of the whole, at the same temperature [L]

    Raises
    ------
    ValueError
        A negative amount, no wort, or a part larger than the whole.

    >>> extract_left(extract_kg=2.2711, part_l=20, whole_l=22)
    2.0646
    """
    not_negative(extract_kg, "an extract")
    not_negative(part_l, "a volume of wort")
    positive(whole_l, "a volume of wort")
    no_more(part_l, whole_l, "a part of a wort")
    return extract_kg * part_l / whole_l


@equation(
    source=sources.DEFINITION,
    formula="η = E_f / E_p",
    symbols={"extract_in_fermenter_kg": "E_f", "potential_extract_kg": "E_p"},
)
def brewhouse_efficiency(*, extract_in_fermenter_kg: Kilograms, potential_extract_kg: Kilograms) -> Fraction:
    """Share of all the potential extract that arrives in the fermenter [fraction].

    Parameters
    ----------
    extract_in_fermenter_kg : extract of the wort at pitching [kg]
    potential_extract_kg : potential of all malts, and sugars and extracts whole [kg]

    >>> brewhouse_efficiency(extract_in_fermenter_kg=2.0646, potential_extract_kg=3.0281)
    0.6818
    """
    not_negative(extract_in_fermenter_kg, "an extract")
    positive(potential_extract_kg, "a potential extract")
    return extract_in_fermenter_kg / potential_extract_kg


@equation(source=sources.DEFINITION, formula="x = m / M", symbols={"part_kg": "m", "whole_kg": "M"})
def share(*, part_kg: Kilograms, whole_kg: Kilograms) -> Fraction:
    """What share of the whole a part is, by mass or by extract [fraction].

    Parameters
    ----------
    part_kg : mass, or extract, of the part [kg]
    whole_kg : the same of the whole [kg]

    >>> share(part_kg=0.25, whole_kg=3.85)
    0.0649
    """
    not_negative(part_kg, "a part")
    positive(whole_kg, "the whole")
    no_more(part_kg, whole_kg, "a part")
    return part_kg / whole_kg


def _sum(parts_kg: tuple[float, ...], what: str) -> float:
    for part in parts_kg:
        not_negative(part, what)
    return sum(parts_kg)
