"""What each part of a grist is there for: base, specialty malt, adjunct or sugar; and what converts its starch."""

from __future__ import annotations

from gristbook.equations import mash, mash_enzymes, sums
from gristbook.model.recipe import Malt
from gristbook.sampling import bare
from gristbook.targets.results import MaltFigures, Roles, SugarFigures
from gristbook.worksheet import Calculator, N, Value, number

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
    return number(_power(malt, bare))


def roles(malts: tuple[MaltFigures[N], ...], sugars: tuple[SugarFigures[N], ...], calc: Calculator[N]) -> Roles[N]:
    """Shares by weight of what brings the extract, by role; malt extract counts as base malt."""

    def of(wanted: str) -> N | None:
        parts = tuple(line.share_by_weight for line in malts if role(line.malt) == wanted)
        if wanted in ("base", "sugar"):
            from_malt = wanted == "base"
            parts += tuple(line.share_by_weight for line in sugars if line.sugar.from_malt == from_malt)
        return calc(sums.total_share, f"{LABELS[wanted]}, share of the grist", parts=parts) if parts else None

    power = _diastatic_power(malts, calc)
    in_wk = None
    if power is not None:
        in_wk = calc(mash.windisch_kolbach_from_lintner, "diastatic power of the grist, in °WK", lintner=power)
    return Roles(of("base"), of("specialty"), of("adjunct"), of("sugar"), power, in_wk)


LABELS = {"base": "base malt", "specialty": "specialty malt", "adjunct": "unmalted grain", "sugar": "sugar"}


def _diastatic_power(malts: tuple[MaltFigures[N], ...], calc: Calculator[N]) -> N | None:
    """The mean over all mashed grain; a grain that nobody states a power for brings none."""
    mashed = [line for line in malts if line.malt.steep is None]
    if not mashed:
        return None
    masses: tuple[N | Value, ...] = tuple(line.mass for line in mashed)
    return calc(
        mash_enzymes.mean_diastatic_power,
        "diastatic power of the grist",
        masses_kg=masses,
        powers=tuple(_power(line.malt, calc) for line in mashed),
    )


def _power(malt: Malt, calc: Calculator[N]) -> N | Value | float:
    return in_lintner(malt.diastatic_power, calc) if malt.diastatic_power is not None else 0.0


def in_lintner(power: Value, calc: Calculator[N]) -> N | Value:
    """A diastatic power in °Lintner, in whichever of the two scales it was written."""
    if power.unit != "°WK":
        return power
    return calc(mash.lintner_from_windisch_kolbach, f"{power.label}, in °Lintner", windisch_kolbach=power)
