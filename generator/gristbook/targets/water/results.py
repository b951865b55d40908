"""What the chain gives of the water's chemistry."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.sheet.value import Value


@dataclass(frozen=True, slots=True)
class Ions:
    """A water's ions (mg/L) and alkalinity (mg/L as CaCO₃, before any acid); `None` where its report is silent."""

    calcium: Value
    magnesium: Value
    sodium: Value | None
    sulfate: Value | None
    chloride: Value | None
    alkalinity: Value


@dataclass(frozen=True, slots=True)
class Mend:
    """What brings a mash to the nearer end of what is usual, besides what the recipe pours in: lactic acid of 88 % or
    phosphoric acid of 10 % (mL), or ``less`` of the acid, as lactic (mL), or baking soda (g).
    """

    lactic: Value | None
    phosphoric: Value | None
    less: Value | None
    soda: Value | None


@dataclass(frozen=True, slots=True)
class WaterChemistry:
    """The water of a brew, from the tap to the mash.

    ``source`` is as it runs, ``treated`` all the brewing water with the salts in it, ``mash`` what meets the grain.
    ``residual_alkalinity`` is that of the mash, or of all the water where nothing is mashed. ``mash_ph_models`` is the
    pH by the balance and after others. ``acid`` is what the mash takes in all (mL of lactic acid of 88 %), where it
    would lie above the target, and ``poured`` what of it the recipe pours in; ``mend`` is there where its pH is not
    usual; ``gypsum`` (g) what brings it enough calcium, where it has little. ``chlorine`` is told as the
    metabisulfite that it and chloramine take up (mg/L), ``metabisulfite`` (g) that of all the water with a little over,
    and ``solution`` (mL) the same as a gram dissolved in a litre.
    """

    source: Ions
    treated: Ions
    mash: Ions | None
    residual_alkalinity: Value
    sulfate_to_chloride: Value | None
    mash_ph: Value | None
    mash_ph_models: tuple[tuple[str, Value], ...]
    acid: Value | None
    poured: Value | None
    mend: Mend | None
    gypsum: Value | None
    chlorine: Value | None
    metabisulfite: Value | None
    solution: Value | None
