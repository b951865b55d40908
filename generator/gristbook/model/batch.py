"""A batch: a recipe as it stood when it was brewed, what was measured, and what became of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from gristbook.model.packing import PrimingSugar
from gristbook.problems import Place
from gristbook.sheet.value import Value

Vessel = Literal["bottles", "heavy bottles", "swing-top bottles", "keg"]
LogScale = Literal["SG", "°P"]
WortStep = Literal["before the boil", "end of the boil", "in the fermenter"]
"""Where wort is measured on the day."""


def is_a_slip(volume: Value, planned: Value) -> bool:
    """Whether a volume is so far from the plan, twice as much or half of it, that it is rather misread (our own)."""
    return not planned.number / 2 < volume.number < planned.number * 2


@dataclass(frozen=True, slots=True)
class Reading:
    """What an instrument showed, uncorrected: SG or °P of a hydrometer, °Bx of a refractometer.

    ``sample`` is the sample's temperature; `None` is that of the instrument's own making.
    """

    shown: Value
    sample: Value | None
    place: Place


@dataclass(frozen=True, slots=True)
class Level:
    """Wort in a vessel: its volume as it was read, how warm it was then (`None` is cool), and its gravity."""

    volume: Value | None
    warmth: Value | None
    gravity: Reading | None
    place: Place


@dataclass(frozen=True, slots=True)
class Moment:
    """A look at the fermenting beer: its gravity, its temperature, or both."""

    when: datetime
    gravity: Reading | None
    temperature: Value | None
    place: Place


@dataclass(frozen=True, slots=True)
class Log:
    """Readings as an instrument in the fermenter wrote them, in order of time, NaN where it wrote none.

    Gravities are on the ``scale`` of the instrument, temperatures in °C.
    """

    file: str
    times: tuple[datetime, ...]
    gravities: tuple[float, ...]
    temperatures: tuple[float, ...]
    place: Place
    scale: LogScale = "SG"


@dataclass(frozen=True, slots=True)
class Packaged:
    """The day of packaging: beer that was packaged (L), sugar that primed it (g), which, and into what."""

    day: str
    volume: Value | None
    sugar: Value | None
    primer: PrimingSugar | None
    vessel: Vessel
    place: Place


@dataclass(frozen=True, slots=True)
class Tasting:
    """How it tasted on a day."""

    day: str
    words: str
    place: Place


@dataclass(frozen=True, slots=True)
class Frozen:
    """The recipe and its plan, as they stood when the batch was begun.

    ``sections`` are the recipe's lines by section, in order; ``plan`` has the plan's figures by id, as given numbers;
    ``boil_min`` is how long it was to boil, `None` where nobody says; ``dry_hopped`` says whether hops go into the
    beer.
    """

    title: str
    sections: tuple[tuple[str, tuple[str, ...]], ...]
    plan: Mapping[str, Value]
    boil_min: float | None
    dry_hopped: bool


@dataclass(frozen=True, slots=True)
class Measured:
    """What was measured, each thing once and as it was read; what nobody measured is `None`.

    ``calibration`` is the temperature that the hydrometer was made for, ``wort_correction`` what the refractometer's
    reading of wort is divided by.
    """

    calibration: Value
    wort_correction: Value
    mash_temperature: Value | None
    first_runnings: Reading | None
    before_the_boil: Level | None
    boiled: Value | None
    end_of_the_boil: Level | None
    left_in_kettle: Value | None
    into_the_fermenter: Value | None
    original: Reading | None
    pitched_at: Value | None
    moments: tuple[Moment, ...]
    log: Log | None
    dry_hopped: str
    final: Reading | None
    left_in_fermenter: Value | None
    packaged: Packaged | None
    warmest_storage: Value | None


@dataclass(frozen=True, slots=True)
class Batch:
    """One brew of a recipe. ``slug`` is the name of its file, ``recipe`` the recipe's address; days are ISO dates.

    ``edition`` is the address of the edition that was brewed, "" for the recipe as written. ``thrown_away`` and
    ``no_lesson`` are reasons, "" where there is none: what became of the beer, and why the book should not learn
    from it.
    """

    slug: str
    recipe: str
    brewed: str
    brewhouse: str
    edition: str
    yeast: str
    frozen: Frozen
    measured: Measured
    ready: str
    tastings: tuple[Tasting, ...]
    thrown_away: str
    no_lesson: str
    prose: str
    place: Place
    prose_line: int
