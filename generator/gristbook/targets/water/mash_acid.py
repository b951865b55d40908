"""The balance of acids in a mash: its pH, and the acid that brings it where it should be."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.equations import acids, mash_ph, water
from gristbook.equations.atoms import molar_mass
from gristbook.equations.salts import SALTS, alkalinity_from_salt
from gristbook.model.recipe import Malt
from gristbook.model.water import AcidUse
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply, number
from gristbook.targets.conventions import within
from gristbook.targets.results import Grist, Mash
from gristbook.targets.water.results import Mend
from gristbook.targets.water.rows import (
    ACIDULATED,
    GRAM_IN_A_LITRE,
    HIGHEST_PH,
    LACTIC_DENSITY,
    LACTIC_STRENGTH,
    LOWEST_PH,
    PHOSPHORIC_DENSITY,
    PHOSPHORIC_STRENGTH,
    ROASTED,
    SHIFT,
    TARGET_PH,
    mash_ph_of,
    sour,
)

LACTIC, PHOSPHORIC = "C3H6O3", "H3PO4"


BEYOND_ITS_MALTS = {"pH of the mash, beyond its malts": "mash pH"}


@dataclass(frozen=True, slots=True)
class Balance:
    """The balance of acids in a mash: base malt by its own pH, caramel and roast by the acid that they bring."""

    grist: Grist
    mash: Mash
    residual: Value

    def ph(self, acid_meq: Value | float) -> Value | None:
        """The pH of the mash; `None` without any base malt to hold it."""
        if not self._lines(False):
            return None
        return within(apply(mash_ph.mash_ph, "pH of the mash", **self._grist(), acid_meq=acid_meq), BEYOND_ITS_MALTS)

    def by_model(self, ph: Value, acid_meq: Value | float) -> tuple[tuple[str, Value], ...]:
        """The pH by the balance, and by what others found that residual alkalinity does to a mash."""
        parts = {**self._grist(), "residual_alkalinity_meq": 0.0}
        distilled = apply(mash_ph.mash_ph, "pH of the mash in distilled water", **parts, acid_meq=acid_meq)
        distilled = within(distilled, BEYOND_ITS_MALTS)
        kolbach = apply(
            mash_ph.mash_ph_shift_kolbach, "shift of pH after Kolbach 1953", residual_alkalinity=self.residual
        )
        troester = apply(
            mash_ph.mash_ph_shift_troester_2009,
            "shift of pH after Troester 2009",
            residual_alkalinity_meq=self._residual_meq(),
            thickness=self.mash.thickness,
        )
        return (
            ("balance of acids", ph),
            *(
                (name, (distilled + shift).called(f"pH of the mash after {name.title()}"))
                for name, shift in (("kolbach 1953", kolbach), ("troester 2009", troester))
            ),
        )

    def acid_wanted(self, ph: Value) -> Value | None:
        """Lactic acid that the mash takes to come down to the target; `None` where it lies there or below."""
        if ph.number <= TARGET_PH.number:
            return None
        return (self._acid_to(TARGET_PH) / lactic_in_a_millilitre()).called("lactic acid to the target", metric=True)

    def mend(self, ph: Value, poured: Value | float) -> Mend | None:
        """What brings the mash to the nearer end of what is usual; `None` where it lies within."""
        if LOWEST_PH.number <= ph.number <= HIGHEST_PH.number:
            return None
        down = ph.number > HIGHEST_PH.number
        acid = self._acid_to(HIGHEST_PH if down else LOWEST_PH)
        if isinstance(poured, Value):
            acid = (acid - poured).called("acid that is still to come")
        if down:
            phosphoric = _in_a_millilitre("phosphoric acid", PHOSPHORIC, PHOSPHORIC_STRENGTH, PHOSPHORIC_DENSITY)
            lactic = (acid / lactic_in_a_millilitre()).called("lactic acid that mends the mash", metric=True)
            other = (acid / phosphoric).called("phosphoric acid in its place", metric=True)
            return Mend(lactic, other, None, None)
        too_much = (acid * -1.0).called("acid that is too much")
        if too_much.number <= number(poured):
            less = (too_much / lactic_in_a_millilitre()).called("lactic acid to leave out", metric=True)
            return Mend(None, None, less, None)
        lacking = (too_much / self.mash.water).called("alkalinity that the mash lacks")
        soda = SALTS["baking soda"]
        label, one = "alkalinity of a gram of baking soda in a litre", {"mass_g": 1.0, "water_l": 1.0}
        gram = apply(alkalinity_from_salt, label, equivalents=soda.equivalents, molar_mass=soda.molar_mass, **one)
        dose = (lacking / gram * GRAM_IN_A_LITRE).called("baking soda in a litre of the mash", metric=True)
        return Mend(None, None, None, (dose * self.mash.water).called("baking soda that mends the mash", metric=True))

    def _acid_to(self, ph: Value) -> Value:
        return apply(mash_ph.acid_for_ph, "acid that the mash takes", target_ph=ph, **self._grist())

    def _grist(self) -> dict[str, Value | tuple[Value, ...]]:
        base, specialty = self._lines(False), self._lines(True)
        buffering = apply(mash_ph.buffering_from_shift, "buffering of the malt", shift=SHIFT)
        return {
            "base_kg": tuple(mass for _, mass, _ in base),
            "base_buffering": tuple(buffering for _ in base),
            "base_ph": tuple(mash_ph_of(malt) for malt, _, _ in base),
            "specialty_kg": tuple(mass for _, mass, _ in specialty),
            "specialty_buffering": tuple(buffering for _ in specialty),
            "specialty_acidity": tuple(self._acidity(malt, colour) for malt, _, colour in specialty),
            "mash_l": self.mash.water,
            "residual_alkalinity_meq": self._residual_meq(),
        }

    def _residual_meq(self) -> Value:
        label = "residual alkalinity, as the acid that it takes up"
        return apply(water.alkalinity_in_milliequivalents, label, alkalinity=self.residual)

    def _lines(self, brings_acid: bool) -> list[tuple[Malt, Value, Value]]:
        return [
            (line.malt, line.mass, line.colour)
            for line in self.grist.malts
            if line.malt.steep is None and sour(line.malt) == brings_acid
        ]

    def _acidity(self, malt: Malt, colour: Value) -> Value:
        if malt.kind == "roast":
            return ROASTED
        if malt.kind != "caramel":
            return ACIDULATED
        return apply(mash_ph.acidity_of_caramel_malt, f"acid of {malt.name}", colour=colour)


def lactic_in_a_millilitre() -> Value:
    """Acid that a millilitre of the usual lactic acid gives in the mash (mEq/mL)."""
    return _in_a_millilitre("lactic acid", LACTIC, LACTIC_STRENGTH, LACTIC_DENSITY)


def acid_in_mash(uses: tuple[AcidUse, ...], mash_l: Value, total_l: Value) -> Value | float:
    """Acid from the recipe's own bottles that gets into the mash."""
    parts: list[Value] = []
    for use in uses:
        if use.into not in ("water", "mash"):
            continue
        acid = (use.volume * in_a_millilitre(use)).called(f"acid from {use.name}")
        if use.into == "water":
            acid = (acid * (mash_l / total_l)).called(f"acid from {use.name} that gets into the mash")
        parts.append(acid)
    return sum_of(parts, "acid in the mash") if parts else 0.0


def in_a_millilitre(use: AcidUse) -> Value:
    """Acid that a millilitre from a bottle gives in the mash (mEq/mL)."""
    return _in_a_millilitre(use.name, use.formula, use.strength, use.density)


def _in_a_millilitre(name: str, formula: str, strength: Value, density: Value) -> Value:
    protons = acids.lactic_protons if formula == LACTIC else acids.phosphoric_protons
    return apply(
        acids.acid_strength,
        f"acid in a millilitre of {name}",
        strength=strength,
        density=density,
        molar_mass=molar_mass(formula),
        protons=apply(protons, f"protons that {name} gives in the mash", ph=TARGET_PH),
    )
