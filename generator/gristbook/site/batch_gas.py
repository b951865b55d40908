"""What a batch's page says of its packaging: the gas, the pressure, and what there is to say against it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.model.batch import Vessel
from gristbook.sheet.value import Value
from gristbook.site.figures import Figure, Sentence, Shown, joined
from gristbook.targets.batches.results import BatchFigures, BottleFigures
from gristbook.targets.caution_rows import CAUTIONS


@dataclass(frozen=True, slots=True)
class GasView:
    """Gas and pressure in a table; ``verdict`` is what there is to say, ``cautions`` what to do about it."""

    vessel: Vessel
    rows: tuple[tuple[str, Figure], ...]
    verdict: Sentence
    grave: bool
    cautions: tuple[str, ...]


def gas_view(figures: BatchFigures, shown: Shown) -> GasView | None:
    """Gas and pressure of a batch that was packaged."""
    bottles, packed = figures.bottles, figures.batch.measured.packaged
    if bottles is None or packed is None:
        return None
    rows = tuple((label, shown(value)) for label, value in _values(bottles) if value is not None)
    kind = "keg" if packed.vessel == "keg" else "keep"
    said = bool(bottles.against) or kind == "keg"
    against = [shown.say(*it.words) for it in bottles.against]
    return GasView(
        packed.vessel,
        rows,
        joined(against, " ") if against else shown.say(*bottles.comfort),
        bool(against),
        tuple(row.words for row in CAUTIONS if said and kind in row.kinds and row.when == "always"),
    )


def _values(bottles: BottleFigures) -> Iterator[tuple[str, Value | None]]:
    yield "Gas left from fermentation", bottles.residual
    yield "Gas from priming", bottles.priming
    yield "Gas as packaged", bottles.carbonation
    yield "Gas from what had still to ferment", bottles.unfinished
    yield "Gas at the end", bottles.at_the_end
    yield "Warmest storage", bottles.warmest
    yield "Pressure there, over the air’s", bottles.pressure
