"""What a batch's page says of its packaging: the gas, the pressure, and what there is to say against it."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.model.batch import Vessel
from gristbook.sheet.value import Value
from gristbook.site.figures import Sentence, joined
from gristbook.targets.batches.results import BatchFigures
from gristbook.targets.caution_rows import CAUTIONS


@dataclass(frozen=True, slots=True)
class GasView:
    """Gas and pressure in a table; ``verdict`` is what there is to say, ``cautions`` what to do about it."""

    vessel: Vessel
    rows: tuple[tuple[str, Value], ...]
    verdict: Sentence
    grave: bool
    cautions: tuple[str, ...]


def gas_view(figures: BatchFigures) -> GasView | None:
    """Gas and pressure of a batch that was packaged."""
    bottles, packed = figures.bottles, figures.batch.measured.packaged
    if bottles is None or packed is None:
        return None
    rows = (
        ("Gas left from fermentation", bottles.residual),
        ("Gas from priming", bottles.priming),
        ("Gas as packaged", bottles.carbonation),
        ("Gas from what had still to ferment", bottles.unfinished),
        ("Gas at the end", bottles.at_the_end),
        ("Warmest storage", bottles.warmest),
        ("Pressure there, over the air’s", bottles.pressure),
    )
    kind = "keg" if packed.vessel == "keg" else "keep"
    against = bool(bottles.against)
    return GasView(
        packed.vessel,
        tuple((label, value) for label, value in rows if value is not None),
        joined([it.words for it in bottles.against], " ") if against else bottles.comfort,
        against,
        tuple(
            row.words for row in CAUTIONS if (against or kind == "keg") and kind in row.kinds and row.when == "always"
        ),
    )
