"""What a batch's page says of its packaging: the gas, the pressure, and what there is to say against it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.model.batch import Vessel
from gristbook.site.figures import Figure, Sentence, Shown, unlinked
from gristbook.targets.batches.results import BatchFigures, BottleFigures
from gristbook.targets.caution_rows import CAUTIONS
from gristbook.targets.conventions import HEAVY_BOTTLES, PRACTICE
from gristbook.targets.gas import CEILINGS
from gristbook.worksheet import Value, given

CALLED = {
    "bottles": "an ordinary bottle",
    "heavy bottles": "a heavy bottle",
    "swing-top bottles": "a swing-top bottle",
}
"""One of each vessel that can burst."""


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
    said = bool(bottles.words) or kind == "keg"
    return GasView(
        packed.vessel,
        rows,
        shown.say(*bottles.words) if bottles.words else tuple(_nothing(bottles, packed.vessel)),
        bool(bottles.words),
        tuple(row.words for row in CAUTIONS if kind in row.kinds and row.when == "always") if said else (),
    )


def _values(bottles: BottleFigures) -> Iterator[tuple[str, Value | None]]:
    yield "Gas left from fermentation", bottles.residual
    yield "Gas from priming", bottles.priming
    yield "Gas as packaged", bottles.carbonation
    yield "Gas from what had still to ferment", bottles.unfinished
    yield "Gas at the end", bottles.at_the_end
    yield "Warmest storage", bottles.warmest
    yield "Pressure there, over the air’s", bottles.pressure


def _nothing(bottles: BottleFigures, vessel: Vessel) -> Iterator[str | Figure]:
    """Where nothing is said against it: the bound that it keeps below."""
    if vessel == "keg" or bottles.at_the_end is None:
        return
    bound = HEAVY_BOTTLES[0][0] if vessel == "heavy bottles" else CEILINGS[0].volumes
    yield f"It keeps below what {CALLED[vessel]} is usually trusted with, "
    yield unlinked(given(bound, "vol", "bound on the gas in a bottle", origin=PRACTICE))
    yield ": its maker has the last word."
