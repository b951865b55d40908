"""The water of an edition: salts and acid by weight and measure for each litre of brewing water, shares as they are."""

from __future__ import annotations

from dataclasses import fields, replace

from gristbook.equations.salts import SALTS
from gristbook.model.amount import Volume
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.water import SaltUse, Treatment, WaterSource
from gristbook.sheet.value import Value, settled

ALKALINE = frozenset(salt.formula for salt in SALTS.values() if salt.equivalents)
FOR_THE_MASH = "What the water got for the mash's sake is left out: malt extract has been mashed already."


def scaled_water(treatment: Treatment, home_l: Value, water_l: Value) -> Treatment:
    """The treatment of ``home_l`` of brewing water for ``water_l``, so that a litre holds the same ions."""

    by = water_l / home_l

    def scaled(amount: Value, name: str) -> Value:
        return settled((amount * by).called(f"amount of {name}"))

    return replace(
        treatment,
        dilutions=tuple(
            replace(use, amount=Volume(scaled(use.amount.value, use.water.name)))
            if isinstance(use.amount, Volume)
            else use
            for use in treatment.dilutions
        ),
        salts=tuple(replace(use, mass=scaled(use.mass, use.name)) for use in treatment.salts),
        acids=tuple(replace(use, volume=scaled(use.volume, use.name)) for use in treatment.acids),
    )


def tap_note(treatment: Treatment, home: Brewhouse, away: Brewhouse) -> tuple[str, ...]:
    """A word where salts that were weighed for one tap would go into the water of another."""
    if treatment.source is not None or _alike(home.water, away.water) or not (treatment.salts or treatment.acids):
        return ()
    return (f"What goes into the water is weighed for the tap of {home.name}, and {away.name} has another.",)


def _alike(one: WaterSource | None, other: WaterSource | None) -> bool:
    """Whether two waters have the same readings, wherever they are written."""
    if one is None or other is None:
        return one is other
    pairs = ((getattr(one, field.name), getattr(other, field.name)) for field in fields(WaterSource))
    return all(getattr(a, "number", None) == getattr(b, "number", None) for a, b in pairs)


def without_a_mash(treatment: Treatment) -> Treatment:
    """What is left to do to the water where malt extract takes the place of the mash: no acid, no alkalinity."""
    return replace(treatment, salts=tuple(use for use in treatment.salts if not _for_the_mash(use)), acids=())


def _for_the_mash(use: SaltUse) -> bool:
    return use.into == "mash" or use.formula in ALKALINE
