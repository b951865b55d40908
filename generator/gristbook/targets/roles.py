"""What each part of a grist is there for: base, specialty malt, adjunct or sugar; and what converts its starch."""

from __future__ import annotations

from gristbook.equations import mash_enzymes, sums
from gristbook.model.recipe import Malt
from gristbook.targets.results import MaltFigures, Roles, SugarFigures
from gristbook.worksheet import Calculator, N, Value

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
    power = malt.diastatic_power
    return "base" if malt.kind == "kilned" and power is not None and power.number >= SELF_CONVERTING else "specialty"


def roles(malts: tuple[MaltFigures[N], ...], sugars: tuple[SugarFigures[N], ...], calc: Calculator[N]) -> Roles[N]:
    """Shares by weight of what brings the extract, by role; malt extract counts as base malt."""

    def of(wanted: str) -> N | None:
        parts = tuple(line.share_by_weight for line in malts if role(line.malt) == wanted)
        if wanted in ("base", "sugar"):
            from_malt = wanted == "base"
            parts += tuple(line.share_by_weight for line in sugars if line.sugar.from_malt == from_malt)
        return calc(sums.total_share, f"{LABELS[wanted]}, share of the grist", parts=parts) if parts else None

    return Roles(of("base"), of("specialty"), of("adjunct"), of("sugar"), _diastatic_power(malts, calc))


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
        powers=tuple(line.malt.diastatic_power or 0.0 for line in mashed),
    )
