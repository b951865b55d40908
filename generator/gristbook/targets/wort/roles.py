"""What each part of a grist is there for: base, specialty malt, adjunct or sugar; and what converts its starch."""

from __future__ import annotations

from gristbook.equations import mash, mash_enzymes
from gristbook.model.recipe import Malt
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.value import Value, apply
from gristbook.targets.results import MaltFigures, Roles, SugarFigures

BASE_KINDS = frozenset({"base", "smoked"})
ADJUNCT_KINDS = frozenset({"flaked", "torrefied", "raw"})
SELF_CONVERTING = 30.0
"""A kilned malt with this much diastatic power or more, in °Lintner, is a base malt, as Vienna and pale Munich are."""


def role(malt: Malt) -> str:
    """ "base", "specialty" or "adjunct", by the malt's kind and its power to convert itself."""
    if malt.kind in BASE_KINDS:
        return "base"
    if malt.kind in ADJUNCT_KINDS:
        return "adjunct"
    return "base" if malt.kind == "kilned" and lintner(malt) >= SELF_CONVERTING else "specialty"


def lintner(malt: Malt) -> float:
    """A malt's diastatic power in °Lintner; none where nobody states it."""
    return in_lintner(malt.diastatic_power).number if malt.diastatic_power is not None else 0.0


def roles(malts: tuple[MaltFigures, ...], sugars: tuple[SugarFigures, ...]) -> Roles:
    """Shares of what brings the extract, by role; malt extract counts as base malt, by the grain it stands for."""

    def of(wanted: str) -> Value | None:
        parts = tuple(line.share_by_weight for line in malts if role(line.malt) == wanted)
        if wanted in ("base", "sugar"):
            from_malt = wanted == "base"
            parts += tuple(line.share_by_weight for line in sugars if line.sugar.from_malt == from_malt)
        return sum_of(parts, f"{LABELS[wanted]}, share of the grist") if parts else None

    power = _diastatic_power(malts)
    in_wk = None
    if power is not None:
        in_wk = apply(mash.windisch_kolbach_from_lintner, "diastatic power of the grist, in °WK", lintner=power)
    return Roles(of("base"), of("specialty"), of("adjunct"), of("sugar"), power, in_wk)


LABELS = {"base": "base malt", "specialty": "specialty malt", "adjunct": "unmalted grain", "sugar": "sugar"}


def _diastatic_power(malts: tuple[MaltFigures, ...]) -> Value | None:
    """The mean over all mashed grain; a grain that nobody states a power for brings none."""
    mashed = [line for line in malts if line.malt.steep is None]
    if not mashed:
        return None
    powers = (line.malt.diastatic_power for line in mashed)
    return apply(
        mash_enzymes.mean_diastatic_power,
        "diastatic power of the grist",
        masses_kg=tuple(line.mass for line in mashed),
        powers=tuple(in_lintner(power) if power is not None else 0.0 for power in powers),
    )


def in_lintner(power: Value) -> Value:
    """A diastatic power in °Lintner, in whichever of the two scales it was written."""
    if power.unit != "°WK":
        return power
    return apply(mash.lintner_from_windisch_kolbach, f"{power.label}, in °Lintner", windisch_kolbach=power)
