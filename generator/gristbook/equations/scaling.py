"""The same beer in another size: what goes by weight per litre, what is left for the base malt, and rounding."""

import math

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import Fraction, Grams, Kilograms, Litres, Millilitres, equation


@equation(
    source=sources.DEFINITION,
    where="by weight per litre of batch",
    formula="m' = m V' / V",
    symbols={"mass_kg": "m", "batch_l": "V'", "from_l": "V"},
)
def scaled_mass(*, mass_kg: Kilograms, batch_l: Litres, from_l: Litres) -> Kilograms:
    """Weight of malt or sugar for another batch, the same for each litre [kg].

    Parameters
    ----------
    mass_kg : weight in the recipe as written [kg]
    batch_l : batch wanted [L]
    from_l : batch as written [L]

    Raises
    ------
    ValueError
        A negative weight, or a batch that is not positive.

    >>> scaled_mass(mass_kg=0.22, batch_l=10, from_l=20)
    0.11
    """
    not_negative(mass_kg, "a weight")
    positive(from_l, "a batch")
    return mass_kg * batch_l / from_l


@equation(
    source=sources.DEFINITION,
    where="by weight per litre of batch",
    formula="m' = m V' / V",
    symbols={"mass_g": "m", "batch_l": "V'", "from_l": "V"},
)
def scaled_grams(*, mass_g: Grams, batch_l: Litres, from_l: Litres) -> Grams:
    """Weight of hops or yeast for another batch, the same for each litre [g].

    Parameters
    ----------
    mass_g : weight in the recipe as written [g]
    batch_l : batch wanted [L]
    from_l : batch as written [L]

    >>> scaled_grams(mass_g=25, batch_l=10, from_l=20)
    12.5
    """
    not_negative(mass_g, "a weight")
    positive(from_l, "a batch")
    return mass_g * batch_l / from_l


@equation(
    source=sources.DEFINITION,
    where="by volume per litre of batch",
    formula="v' = v V' / V",
    symbols={"volume_ml": "v", "batch_l": "V'", "from_l": "V"},
)
def scaled_millilitres(*, volume_ml: Millilitres, batch_l: Litres, from_l: Litres) -> Millilitres:
    """Measure of an acid for another batch, the same for each litre [mL].

    Parameters
    ----------
    volume_ml : measure in the recipe as written [mL]
    batch_l : batch wanted [L]
    from_l : batch as written [L]

    >>> scaled_millilitres(volume_ml=4, batch_l=10, from_l=20)
    2.0
    """
    not_negative(volume_ml, "a volume")
    positive(from_l, "a batch")
    return volume_ml * batch_l / from_l


@equation(
    source=sources.DEFINITION,
    where="by volume per litre of batch",
    formula="v' = v V' / V",
    symbols={"volume_l": "v", "batch_l": "V'", "from_l": "V"},
)
def scaled_volume(*, volume_l: Litres, batch_l: Litres, from_l: Litres) -> Litres:
    """Volume of a spoonful or a liquid for another batch, the same for each litre [L].

    Parameters
    ----------
    volume_l : volume in the recipe as written [L]
    batch_l : batch wanted [L]
    from_l : batch as written [L]

    >>> scaled_volume(volume_l=0.0025, batch_l=10, from_l=20)
    0.00125
    """
    not_negative(volume_l, "a volume")
    positive(from_l, "a batch")
    return volume_l * batch_l / from_l


@equation(
    source=sources.LAVOISIER_1789,
    formula="E = E_all − Σ Eᵢ",
    symbols={"extract_kg": "E_all", "parts_kg": "Eᵢ"},
)
def remaining_extract(*, extract_kg: Kilograms, parts_kg: tuple[Kilograms, ...]) -> Kilograms:
    """Extract that is left for the base malt to bring [kg].

    Parameters
    ----------
    extract_kg : extract needed in all [kg]
    parts_kg : what everything else brings [kg]

    Raises
    ------
    ValueError
        Everything else brings more than is needed.

    >>> remaining_extract(extract_kg=2.3, parts_kg=(0.12, 0.02))
    2.16
    """
    left = extract_kg - math.fsum(parts_kg)
    positive(left, "what is left for the base malt")
    return left


@equation(
    source=sources.DEFINITION,
    where="equal extract",
    formula="m = E / p",
    symbols={"extract_kg": "E", "potential": "p"},
)
def mass_for_extract(*, extract_kg: Kilograms, potential: Fraction) -> Kilograms:
    """Weight that brings an extract: of malt extract in place of malt, or the other way round [kg].

    Parameters
    ----------
    extract_kg : extract to bring [kg]
    potential : what a kilogram brings to the kettle: potential, times efficiency where it is mashed [fraction]

    Raises
    ------
    ValueError
        Something that brings no extract.

    >>> mass_for_extract(extract_kg=0.6057, potential=0.96)
    0.631
    """
    positive(potential, "what a kilogram brings")
    return extract_kg / potential


@equation(
    source=sources.DEFINITION,
    where="to the nearest step, and never to nothing",
    formula="m' = s × max(1, round(m / s))",
    symbols={"mass_kg": "m", "step_kg": "s"},
)
def rounded_mass(*, mass_kg: Kilograms, step_kg: Kilograms) -> Kilograms:
    """Weight as people can weigh it [kg].

    Parameters
    ----------
    mass_kg : weight as worked out [kg]
    step_kg : smallest step of the scale [kg]

    >>> rounded_mass(mass_kg=1.298, step_kg=0.010)
    1.30
    """
    positive(step_kg, "a step")
    return step_kg * float(max(1, round(mass_kg / step_kg))) if mass_kg > 0 else 0.0


@equation(
    source=sources.DEFINITION,
    where="to the nearest step, and never to nothing",
    formula="m' = s × max(1, round(m / s))",
    symbols={"mass_g": "m", "step_g": "s"},
)
def rounded_grams(*, mass_g: Grams, step_g: Grams) -> Grams:
    """Weight of hops or yeast as people can weigh it [g].

    Parameters
    ----------
    mass_g : weight as worked out [g]
    step_g : smallest step of the scale [g]

    >>> rounded_grams(mass_g=13.22, step_g=1)
    13.0
    """
    positive(step_g, "a step")
    return step_g * float(max(1, round(mass_g / step_g))) if mass_g > 0 else 0.0


@equation(
    source=sources.DEFINITION,
    where="to the nearest step, and never to nothing",
    formula="v' = s × max(1, round(v / s))",
    symbols={"volume_ml": "v", "step_ml": "s"},
)
def rounded_millilitres(*, volume_ml: Millilitres, step_ml: Millilitres) -> Millilitres:
    """Measure of an acid as a syringe shows it [mL].

    Parameters
    ----------
    volume_ml : measure as worked out [mL]
    step_ml : smallest step of the syringe [mL]

    >>> rounded_millilitres(volume_ml=1.537, step_ml=0.1)
    1.5
    """
    positive(step_ml, "a step")
    return step_ml * float(max(1, round(volume_ml / step_ml))) if volume_ml > 0 else 0.0
