"""The pH of a mash, as far as it can be told beforehand: to two tenths or so. A meter, or at least a strip, decides.

What pushes the pH is counted in milliequivalents of acid, and the grist's buffering says how far a push goes. Published
bufferings, 30 to 45, and the one that lies in the published effect of alkalinity, 58 at 3 L/kg, disagree by a half and
more: work it with both, and show what lies between.
"""

from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.bounds import not_negative, positive, side_by_side
from gristbook.equations.registry import REGRESSION, Valid, equation, published
from gristbook.equations.water import CHALK_PER_GERMAN_DEGREE

SPECIALTY_PH: Final = 5.7  # that acidity of caramel and roasted malts is told against
ROASTED_ACIDITY: Final = 42.0  # of roasted malts and barley, about [mEq/kg]

_BUFFERING: Final = Valid(30, 58, "published as 30 to 45; 58 follows from the effect of alkalinity at 3 L/kg")
_BALANCE: Final = "Σ mᵢ Bᵢ (pH − pHᵢ) + Σ mⱼ (Bⱼ (pH − 5.7) + aⱼ) − V RA + A = 0"

BaseKg = Annotated[tuple[float, ...], "kg", "mᵢ", "mass of each base malt"]
BaseBuffering = Annotated[tuple[float, ...], "mEq/(kg·pH)", "Bᵢ", "of each, about 30 to 45", _BUFFERING]
BasePh = Annotated[tuple[float, ...], "pH", "pHᵢ", "of a mash of each in distilled water"]
SpecialtyKg = Annotated[tuple[float, ...], "kg", "mⱼ", "mass of each caramel or roasted malt; may be none"]
SpecialtyBuffering = Annotated[tuple[float, ...], "mEq/(kg·pH)", "Bⱼ", "of each", _BUFFERING]
SpecialtyAcidity = Annotated[tuple[float, ...], "mEq/kg", "aⱼ", "acid that each brings, against pH 5.7"]
MashWater = Annotated[float, "L", "V", "water in the mash"]
ResidualAlkalinity = Annotated[float, "mEq/L", "RA", "of that water, salts in it"]


@published(
    source=sources.KOLBACH_1953,
    where="10 German degrees, 178.5 mg/L as CaCO₃, raise it by 0.3",
    formula="ΔpH = 0.3 RA / (100 × 100.086/56.077)",
)
def mash_ph_shift_kolbach(
    *, residual_alkalinity: Annotated[float, "mg/L CaCO₃", "RA", "of the water"]
) -> Annotated[float, "pH"]:
    """How far water moves the pH of wort of 12 °P at the end of the boil [pH].

    It is often applied to the mash, where it overstates the shift unless the mash has about 5.5 L/kg.

    >>> mash_ph_shift_kolbach(residual_alkalinity=178.5)
    0.3
    """
    return 0.3 * residual_alkalinity / (10 * CHALK_PER_GERMAN_DEGREE)


@equation(held=REGRESSION, source=sources.TROESTER_2009, formula="ΔpH = RA (0.013 R + 0.013)")
def mash_ph_shift_troester_2009(
    *,
    residual_alkalinity_meq: Annotated[float, "mEq/L", "RA", "of the water"],
    thickness: Annotated[float, "L/kg", "R", "water to a kilogram of grist"],
) -> Annotated[float, "pH"]:
    """How far water moves the pH of a mash, against distilled water [pH].

    Refuses no water.

    >>> mash_ph_shift_troester_2009(residual_alkalinity_meq=1, thickness=3)
    0.052
    """
    positive(thickness, "a thickness")
    return residual_alkalinity_meq * (0.013 * thickness + 0.013)


@equation(held=REGRESSION, source=sources.RIFFE_2013, formula="a = 0.45 L + 6")
def acidity_of_caramel_malt(
    *,
    colour: Annotated[
        float,
        "°L",
        "L",
        "of the malt",
        Valid(40, 120, "the figures at hand are for 40, 60 and 120 °L; roasted malts have about 42"),
    ],
) -> Annotated[float, "mEq/kg"]:
    """Acid that a caramel malt brings, against pH 5.7 [mEq/kg]; colour tells it weakly, and there are exceptions.

    Refuses a negative colour.

    >>> acidity_of_caramel_malt(colour=40)
    24.0
    """
    not_negative(colour, "a colour")
    return 0.45 * colour + 6


@equation(
    source=sources.TROESTER_2009,
    where="by the meaning of buffering; his effect of alkalinity at 3 L/kg, 0.052 / 3, comes to 58",
    formula="B = 1 / Δ",
)
def buffering_from_shift(
    *, shift: Annotated[float, "pH·kg/mEq", "Δ", "what a milliequivalent does to the pH of a kilogram"]
) -> Annotated[float, "mEq/(kg·pH)"]:
    """Buffering of malt by how far a milliequivalent of acid moves a kilogram of it [mEq/(kg·pH)].

    Refuses a shift that is not positive.

    >>> buffering_from_shift(shift=0.025)
    40.0
    """
    positive(shift, "a shift of pH")
    return 1 / shift


@equation(source=sources.TROESTER_2009, where="the balance of acids, solved for pH", formula=f"pH such that {_BALANCE}")
def mash_ph(
    *,
    base_kg: BaseKg,
    base_buffering: BaseBuffering,
    base_ph: BasePh,
    specialty_kg: SpecialtyKg,
    specialty_buffering: SpecialtyBuffering,
    specialty_acidity: SpecialtyAcidity,
    mash_l: MashWater,
    residual_alkalinity_meq: ResidualAlkalinity,
    acid_meq: Annotated[float, "mEq", "A", "acid that is added"],
) -> Annotated[float, "pH"]:
    """The pH of a mash, at room temperature [pH]; a guide, as good as the bufferings put into it.

    Refuses a negative amount, or no base malt.

    >>> mash_ph(base_kg=(4.0,), base_buffering=(40.0,), base_ph=(5.7,), specialty_kg=(1.0,),
    ...         specialty_buffering=(40.0,), specialty_acidity=(24.0,), mash_l=15, residual_alkalinity_meq=1.0,
    ...         acid_meq=0)
    5.655
    """
    base, specialty = (base_kg, base_buffering, base_ph), (specialty_kg, specialty_buffering, specialty_acidity)
    not_negative(mash_l, "mash water")
    buffering = _buffering(base, specialty)
    without_acid = _acid_to(0.0, base, specialty) + mash_l * residual_alkalinity_meq
    return (without_acid - acid_meq) / buffering


@equation(
    source=sources.TROESTER_2009, where="the balance of acids, solved for the acid", formula=f"A such that {_BALANCE}"
)
def acid_for_ph(
    *,
    target_ph: Annotated[float, "pH", "pH", "wanted in the mash, at room temperature"],
    base_kg: BaseKg,
    base_buffering: BaseBuffering,
    base_ph: BasePh,
    specialty_kg: SpecialtyKg,
    specialty_buffering: SpecialtyBuffering,
    specialty_acidity: SpecialtyAcidity,
    mash_l: MashWater,
    residual_alkalinity_meq: ResidualAlkalinity,
) -> Annotated[float, "mEq"]:
    """Acid that brings a mash to a pH: `mash_ph` the other way round [mEq]; below 0 where it wants alkalinity.

    Add half, measure, and only then the rest: the bufferings are uncertain, and acid does not come out again.
    Refuses a negative amount, or no base malt.

    >>> acid_for_ph(target_ph=5.4, base_kg=(4.0,), base_buffering=(40.0,), base_ph=(5.7,), specialty_kg=(1.0,),
    ...             specialty_buffering=(40.0,), specialty_acidity=(24.0,), mash_l=15, residual_alkalinity_meq=1.0)
    51.0
    """
    base, specialty = (base_kg, base_buffering, base_ph), (specialty_kg, specialty_buffering, specialty_acidity)
    not_negative(mash_l, "mash water")
    return _acid_to(target_ph, base, specialty) + mash_l * residual_alkalinity_meq


_Malts = tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...]]


def _buffering(base: _Malts, specialty: _Malts) -> float:
    """Acid that moves the whole grist by one pH."""
    side_by_side(base[0], base[1], "base malts and bufferings")
    side_by_side(base[0], base[2], "base malts and their pH")
    if not len(specialty[0]) == len(specialty[1]) == len(specialty[2]):
        raise ValueError("specialty malts, bufferings and acidities must be as many as each other")
    for value in (*base[0], *base[1], *specialty[0], *specialty[1], *specialty[2]):
        not_negative(value, "a mass, a buffering or an acidity")
    whole = sum(kg * buffering for malts in (base, specialty) for kg, buffering, _ in zip(*malts, strict=True))
    positive(whole, "the grist's buffering")
    return whole


def _acid_to(ph: float, base: _Malts, specialty: _Malts) -> float:
    """Acid that brings the grist, in distilled water, to a pH."""
    _buffering(base, specialty)
    from_base = sum(kg * buffering * (own - ph) for kg, buffering, own in zip(*base, strict=True))
    from_specialty = sum(
        kg * (buffering * (SPECIALTY_PH - ph) - acidity) for kg, buffering, acidity in zip(*specialty, strict=True)
    )
    return from_base + from_specialty
