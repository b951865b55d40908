"""What the water's section of a recipe is given: the verdict in words, then the ions, as they run and as used."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.sheet.value import Value
from gristbook.site.figures import Figure, Sentence, Shown
from gristbook.targets.figures import Plan
from gristbook.targets.water_results import Ions, WaterChemistry
from gristbook.targets.water_verdict import Said, verdict

IONS = ("calcium", "magnesium", "sodium", "sulfate", "chloride", "alkalinity")
"""In the order in which reports give them."""


@dataclass(frozen=True, slots=True)
class Told:
    """Words about the water and the reason for them."""

    words: Sentence
    reason: str


@dataclass(frozen=True, slots=True)
class IonRow:
    """An ion of the water from the tap, of all the brewing water and, where it differs, of the mash."""

    name: str
    source: Figure
    treated: Figure
    mash: Figure | None


@dataclass(frozen=True, slots=True)
class WaterView:
    """The water of a brew. ``changed`` says whether the recipe touches the ions; without rows, none is known."""

    name: str
    verdict: Told
    remarks: tuple[Told, ...]
    changed: bool
    rows: tuple[IonRow, ...]


def water_view(plan: Plan, shown: Shown) -> WaterView:
    """The water's section for a plan."""
    chemistry = plan.figures.chemistry
    first, *others = (_told(said, shown) for said in verdict(plan))
    source = plan.recipe.water.source or plan.brewhouse.water
    return WaterView(
        name=source.name if source is not None else "",
        verdict=first,
        remarks=tuple(others),
        changed=chemistry is not None and chemistry.treated != chemistry.source,
        rows=tuple(_rows(chemistry, shown)) if chemistry is not None else (),
    )


def _told(said: Said, shown: Shown) -> Told:
    return Told(shown.say(*said.words), said.reason)


def _rows(chemistry: WaterChemistry, shown: Shown) -> Iterator[IonRow]:
    apart = chemistry.mash is not None and chemistry.mash != chemistry.treated
    for name in IONS:
        source, treated, mash = (_of(water, name) for water in (chemistry.source, chemistry.treated, chemistry.mash))
        if source is not None and treated is not None:
            yield IonRow(name, shown(source), shown(treated), shown(mash) if apart and mash is not None else None)


def _of(water: Ions | None, name: str) -> Value | None:
    value: Value | None = getattr(water, name, None)
    return value
