"""The chemistry of the brewing water: waters mixed, salts dissolved, and what that does to the mash."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from gristbook.equations import chlorine, salts, treatment, water
from gristbook.equations.atoms import molar_mass
from gristbook.model.amount import Share, Volume
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Recipe
from gristbook.model.water import Dilution, SaltUse, Treatment, WaterSource
from gristbook.refusal import Refusal
from gristbook.sheet.arithmetic import less, sum_of
from gristbook.sheet.value import Value, apply
from gristbook.targets.results import Grist, Mash
from gristbook.targets.water.mash_acid import Balance, acid_in_mash, lactic_in_a_millilitre
from gristbook.targets.water.results import Ions, WaterChemistry
from gristbook.targets.water.rows import ENOUGH_CALCIUM, EXCESS, SOLUTION

CHEMISTRY = {salt.formula: salt for salt in salts.SALTS.values()}
LEAST_CHLORIDE = 1.0
"""Below this many mg/L a ratio to chloride says nothing."""


@dataclass(frozen=True, slots=True)
class Mix:
    """The waters of a brew side by side: how much of the brewhouse's own, and of each other water."""

    own_l: Value
    others: tuple[tuple[WaterSource, Value], ...]


def capped(treated: Treatment, total_l: Value) -> Dilution | None:
    """The only water that is named, where more of it is than the brew takes: all of the water is that then."""
    only = treated.dilutions[0] if treated.source is None and len(treated.dilutions) == 1 else None
    return only if only and isinstance(only.amount, Volume) and only.amount.value.number > total_l.number else None


def mix(treated: Treatment, total_l: Value) -> Mix:
    """How much of each water makes up all the brewing water.

    Raises
    ------
    Refusal
        More of the other waters than the brew takes.
    """
    others: list[tuple[WaterSource, Value]] = []
    for dilution in treated.dilutions:
        volume = dilution.amount.value
        if isinstance(dilution.amount, Share):
            volume = (volume * total_l).called(f"{dilution.water.name} in the mix")
        others.append((dilution.water, volume))
    if not others:
        return Mix(total_l, ())
    if capped(treated, total_l):
        others = [(others[0][0], total_l)]
    other = sum_of((volume for _, volume in others), "other water in the mix")
    if other.number > total_l.number * (1 + 1e-9):
        raise Refusal(f"{other.number:.3g} L of other water is more than the {total_l.number:.3g} L that it takes")
    return Mix(less(total_l, other, left="what is left of a volume", label="water from the tap"), tuple(others))


def water_chemistry(
    recipe: Recipe, brewhouse: Brewhouse, grist: Grist, mash: Mash | None, total_l: Value
) -> WaterChemistry | None:
    """The water's chemistry, or `None` where nobody names the water: absent is not nothing.

    Raises
    ------
    Refusal
        More of the other waters than the brew takes.
    """
    mixed = mix(recipe.water, total_l)
    own = recipe.water.source or brewhouse.water
    if own is None:
        return None
    blend = _Blend(own, mixed, recipe.water, total_l)
    treated, in_mash = blend.with_salts(None), None
    if mash is not None:
        apart = any(salt.into != "water" for salt in recipe.water.salts)
        in_mash = blend.with_salts(mash.water) if apart else treated
    residual = _residual(in_mash or treated, "of the mash" if in_mash else "of the water")
    ph = acid = gypsum = mend = lactic = None
    models: tuple[tuple[str, Value], ...] = ()
    if mash is not None:
        balance = Balance(grist, mash, residual)
        poured = acid_in_mash(recipe.water.acids, mash.water, total_l)
        ph = balance.ph(poured)
        if ph is not None:
            acid, models = balance.acid_wanted(ph), balance.by_model(ph, poured)
            mend = balance.mend(ph, poured)
        if isinstance(poured, Value):
            lactic = (poured / lactic_in_a_millilitre()).called("written acid, as lactic acid", metric=True)
        gypsum = _gypsum(in_mash or treated, mash.water)
    takes = blend.chlorine()
    dose = _metabisulfite(takes, total_l) if takes is not None else None
    return WaterChemistry(
        source=blend.as_it_runs(),
        treated=treated,
        mash=in_mash,
        residual_alkalinity=residual,
        sulfate_to_chloride=_ratio(treated),
        mash_ph=ph,
        mash_ph_models=models,
        acid=acid,
        poured=lactic,
        mend=mend,
        gypsum=gypsum,
        chlorine=takes,
        metabisulfite=dose,
        solution=(
            apply(chlorine.solution_volume, "the same, of a gram dissolved in a litre", mass_g=dose, strength=SOLUTION)
            if dose is not None
            else None
        ),
    )


@dataclass(frozen=True, slots=True)
class _Blend:
    """A water, what it is mixed with and what is dissolved in it."""

    own: WaterSource
    mixed: Mix
    treated: Treatment
    total_l: Value

    def as_it_runs(self) -> Ions:
        """The brewhouse's own water, before anything is done to it."""
        own = self.own
        alkalinity = _alkalinity(own)
        return Ions(own.calcium, own.magnesium, own.sodium, own.sulfate, own.chloride, alkalinity)

    def with_salts(self, mash_l: Value | None) -> Ions:
        """All the brewing water with every salt in it, or the water of the mash with those that go there."""
        where = "in the mash" if mash_l is not None else "in all the water"
        wanted = ("water", "mash") if mash_l is not None else ("water", "mash", "sparge", "kettle")
        used = [
            (salt, mash_l if mash_l is not None and salt.into == "mash" else self.total_l)
            for salt in self.treated.salts
            if salt.into in wanted
        ]
        calcium, magnesium = (self._ion(name, where, used) for name in ("calcium", "magnesium"))
        assert calcium is not None, "every report gives calcium and magnesium"
        assert magnesium is not None, "every report gives calcium and magnesium"
        sodium, sulfate, chloride = (self._ion(name, where, used) for name in ("sodium", "sulfate", "chloride"))
        return Ions(calcium, magnesium, sodium, sulfate, chloride, self._alkalinity(where, used))

    def chlorine(self) -> Value | None:
        """Metabisulfite that the chlorine of the mix takes up; `None` where a report is silent about it."""
        return self._mixed("metabisulfite that the chlorine takes", map(_chlorine, self._waters()))

    def _ion(self, name: str, where: str, used: list[tuple[SaltUse, Value]]) -> Value | None:
        base = self._mixed(f"{name} of the mixed water", (getattr(one, name) for one in self._waters()))
        parts = [part for salt, volume_l in used if (part := _brought(name, salt, volume_l)) is not None]
        return sum_of((base, *parts), f"{name} {where}") if base is not None and parts else base

    def _alkalinity(self, where: str, used: list[tuple[SaltUse, Value]]) -> Value:
        base = _alkalinity(self.own)
        if self.mixed.others:
            told, label = tuple(map(_alkalinity, self._waters())), "alkalinity of the mixed water"
            base = apply(treatment.mixed_alkalinity, label, alkalinities=told, volumes_l=self._volumes())
        added = tuple(
            apply(
                salts.alkalinity_from_salt,
                f"alkalinity from {salt.name}",
                mass_g=salt.mass,
                equivalents=CHEMISTRY[salt.formula].equivalents,
                molar_mass=CHEMISTRY[salt.formula].molar_mass,
                water_l=volume_l,
            )
            for salt, volume_l in used
            if not salt.sulfite and CHEMISTRY[salt.formula].equivalents
        )
        if not added:
            return base
        return apply(treatment.alkalinity_with_salts, f"alkalinity {where}", alkalinity=base, added_meq=added)

    def _mixed(self, label: str, of: Iterable[Value | None]) -> Value | None:
        """What the waters have of one thing when they are mixed; `None` where one of them does not say."""
        known = tuple(one for one in of if one is not None)
        if len(known) <= len(self.mixed.others):
            return None
        if len(known) == 1:
            return known[0]
        return apply(treatment.mixed_concentration, label, concentrations=known, volumes_l=self._volumes())

    def _waters(self) -> tuple[WaterSource, ...]:
        return self.own, *(water for water, _ in self.mixed.others)

    def _volumes(self) -> tuple[Value, ...]:
        return self.mixed.own_l, *(volume for _, volume in self.mixed.others)


def _brought(name: str, salt: SaltUse, volume_l: Value) -> Value | None:
    """What a salt adds of one ion."""
    label = f"{name} from {salt.name}"
    if salt.sulfite:
        if name != "sulfate":
            return None
        dose = (salt.mass / volume_l).told_in("mg/L").called(f"{salt.name} in it")
        weighs = molar_mass(salt.formula)
        return apply(chlorine.sulfate_from_metabisulfite, label, metabisulfite=dose, salt_molar_mass=weighs)
    if name not in CHEMISTRY[salt.formula].ions:
        return None
    share = _share_of_ion(name, salt.formula, salt.name)
    return (salt.mass * share / volume_l).told_in("mg/L").called(label)


def _alkalinity(one: WaterSource) -> Value:
    if one.alkalinity is not None:
        return one.alkalinity
    label = f"alkalinity of {one.name}"
    if one.acid_capacity is not None:
        return apply(water.alkalinity_as_calcium_carbonate, label, alkalinity_meq=one.acid_capacity)
    assert one.bicarbonate is not None, "a water states its alkalinity in one of three ways"
    return apply(water.alkalinity_from_bicarbonate, label, bicarbonate=one.bicarbonate)


def _chlorine(one: WaterSource) -> Value | None:
    """Metabisulfite that chlorine and chloramine take up, each by what the report weighs it as."""
    weighs = chlorine.POTASSIUM_METABISULFITE
    label = "metabisulfite that the {} takes"
    parts = [
        apply(chlorine.metabisulfite_for_chlorine, label.format(name), chlorine=free, salt_molar_mass=weighs)
        for name, free in (("chlorine", one.chlorine), ("chloramine", one.chloramine))
        if free is not None
    ]
    if one.monochloramine is not None:
        takes, named = chlorine.metabisulfite_for_chloramine, label.format("chloramine")
        parts.append(apply(takes, named, chloramine=one.monochloramine, salt_molar_mass=weighs))
    if len(parts) < 2:
        return parts[0] if parts else None
    return sum_of(parts, f"metabisulfite for {one.name}")


def _residual(ions: Ions, what: str) -> Value:
    return apply(
        water.residual_alkalinity_kolbach_1953,
        f"residual alkalinity {what}",
        calcium=ions.calcium,
        magnesium=ions.magnesium,
        alkalinity=ions.alkalinity,
    )


def _ratio(ions: Ions) -> Value | None:
    sulfate, chloride = ions.sulfate, ions.chloride
    if sulfate is None or chloride is None or chloride.number < LEAST_CHLORIDE:
        return None
    return (sulfate / chloride).called("sulfate to chloride")


def _gypsum(ions: Ions, mash_l: Value) -> Value | None:
    """Gypsum that gives the mash enough calcium; `None` where it has that."""
    if ions.calcium.number >= ENOUGH_CALCIUM.number:
        return None
    lacking = (ENOUGH_CALCIUM - ions.calcium).called("calcium that the mash lacks")
    return (lacking * mash_l / _share_of_ion("calcium", "CaSO4·2H2O", "gypsum")).called(
        "gypsum for the mash", metric=True
    )


def _share_of_ion(ion: str, formula: str, salt: str) -> Value:
    known = CHEMISTRY[formula]
    return apply(
        salts.ion_from_salt,
        f"{ion} in a gram of {salt}",
        ions=known.ions[ion],
        ion_molar_mass=salts.IONS[ion].molar_mass,
        salt_molar_mass=known.molar_mass,
    )


def _metabisulfite(takes: Value, total_l: Value) -> Value | None:
    """Potassium metabisulfite for all the water; `None` where there is no chlorine in it."""
    if takes.number <= 0:
        return None
    return (EXCESS * takes * total_l).called("potassium metabisulfite for all the water", metric=True)
