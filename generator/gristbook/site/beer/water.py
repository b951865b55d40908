"""What the water's section of a recipe is given: the verdict in words, then the ions, as they run and as used."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.sheet.value import Value
from gristbook.targets.figures import Plan
from gristbook.targets.water.results import WaterChemistry
from gristbook.targets.water.verdict import Said, verdict

IONS = ("calcium", "magnesium", "sodium", "sulfate", "chloride", "alkalinity")
"""In the order in which reports give them."""


@dataclass(frozen=True, slots=True)
class IonRow:
    """An ion of the water from the tap, of all the brewing water and, where it differs, of the mash."""

    name: str
    source: Value
    treated: Value
    mash: Value | None


@dataclass(frozen=True, slots=True)
class WaterView:
    """The water of a brew. ``changed`` says whether the recipe touches the ions; without rows, none is known."""

    name: str
    verdict: Said
    remarks: tuple[Said, ...]
    changed: bool
    rows: tuple[IonRow, ...]


def water_view(plan: Plan) -> WaterView:
    """The water's section for a plan."""
    chemistry = plan.figures.chemistry
    first, *others = verdict(plan)
    source = plan.recipe.water.source or plan.brewhouse.water
    return WaterView(
        name=source.name if source is not None else "",
        verdict=first,
        remarks=tuple(others),
        changed=chemistry is not None and chemistry.treated != chemistry.source,
        rows=tuple(_rows(chemistry)) if chemistry is not None else (),
    )


def _rows(chemistry: WaterChemistry) -> Iterator[IonRow]:
    mash = chemistry.mash if chemistry.mash != chemistry.treated else None
    for name in IONS:
        source, treated = getattr(chemistry.source, name), getattr(chemistry.treated, name)
        if source is not None and treated is not None:
            yield IonRow(name, source, treated, getattr(mash, name, None))
