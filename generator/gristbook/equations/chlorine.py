"""Metabisulfite against the chlorine or chloramine in tap water, mole by mole.

S₂O₅²⁻ + 2 Cl₂ + 3 H₂O → 2 SO₄²⁻ + 4 Cl⁻ + 6 H⁺
S₂O₅²⁻ + 2 NH₂Cl + 3 H₂O → 2 SO₄²⁻ + 2 Cl⁻ + 2 NH₄⁺ + 2 H⁺

These are least amounts; brewers take 20 to 30 % more. Its fumes harm, above all in asthma: no more than that, never
into acid, and mind that sulfite is an allergen.
"""

from typing import Annotated, Final

from gristbook.equations import sources
from gristbook.equations.atoms import molar_mass
from gristbook.equations.bounds import not_negative, positive
from gristbook.equations.registry import METRIC, checked_by_library, equation, published

POTASSIUM_METABISULFITE: Final = molar_mass("K2S2O5")
SODIUM_METABISULFITE: Final = molar_mass("Na2S2O5")

Metabisulfite = Annotated[float, "g/mol", "M", "of the metabisulfite, of potassium or of sodium"]


@checked_by_library(source=sources.DELANGE_SULFITE, where="one S₂O₅²⁻ for two Cl₂", formula="c = Cl₂ × M / (2 × 70.90)")
def metabisulfite_for_chlorine(
    *,
    chlorine: Annotated[float, "mg/L", "Cl₂", "of the water, free chlorine or chloramine told as Cl₂"],
    salt_molar_mass: Metabisulfite,
) -> Annotated[float, "mg/L"]:
    """Metabisulfite that takes up all chlorine [mg/L].

    For chloramine too where the water's report tells it "as Cl₂", as most do.
    Refuses a negative concentration, or a molar mass that is not positive.

    >>> metabisulfite_for_chlorine(chlorine=1, salt_molar_mass=POTASSIUM_METABISULFITE)
    1.568
    """
    not_negative(chlorine, "a concentration")
    positive(salt_molar_mass, "a molar mass")
    return chlorine * salt_molar_mass / (2 * molar_mass("Cl2"))


@published(source=sources.DELANGE_SULFITE, where="one S₂O₅²⁻ for two NH₂Cl", formula="c = NH₂Cl × M / (2 × 51.473)")
def metabisulfite_for_chloramine(
    *, chloramine: Annotated[float, "mg/L", "NH₂Cl", "of the water, as NH₂Cl"], salt_molar_mass: Metabisulfite
) -> Annotated[float, "mg/L"]:
    """Metabisulfite that takes up all chloramine, where this is told as itself and not as Cl₂ [mg/L].

    Refuses a negative concentration, or a molar mass that is not positive.

    >>> metabisulfite_for_chloramine(chloramine=1, salt_molar_mass=POTASSIUM_METABISULFITE)
    2.160
    """
    not_negative(chloramine, "a concentration")
    positive(salt_molar_mass, "a molar mass")
    return chloramine * salt_molar_mass / (2 * molar_mass("NH2Cl"))


@checked_by_library(
    source=sources.DELANGE_SULFITE,
    where="two SO₄²⁻ from one S₂O₅²⁻, once all of it has met chlorine",
    formula="SO₄ = c × 2 × 96.056 / M",
)
def sulfate_from_metabisulfite(
    *, metabisulfite: Annotated[float, "mg/L", "c", "that met chlorine or chloramine"], salt_molar_mass: Metabisulfite
) -> Annotated[float, "mg/L"]:
    """Sulfate that the metabisulfite leaves in the water [mg/L].

    Refuses a negative concentration, or a molar mass that is not positive.

    >>> sulfate_from_metabisulfite(metabisulfite=4.704, salt_molar_mass=POTASSIUM_METABISULFITE)
    4.06
    """
    not_negative(metabisulfite, "a concentration")
    positive(salt_molar_mass, "a molar mass")
    return metabisulfite * 2 * molar_mass("SO4") / salt_molar_mass


@equation(source=sources.DEFINITION, formula="v = 1000 m / c")
def solution_volume(
    *,
    mass_g: Annotated[float, "g", "m", "wanted"],
    strength: Annotated[float, "g/L", "c", "of the solution, 1 g/L where a gram was dissolved in a litre"],
) -> Annotated[float, "mL", METRIC]:
    """Solution that holds a mass too small to weigh [mL].

    Refuses a negative mass, or a solution of nothing.

    >>> solution_volume(mass_g=0.12, strength=1)
    120.0
    """
    not_negative(mass_g, "a mass")
    positive(strength, "the strength of a solution")
    return 1000 * mass_g / strength
