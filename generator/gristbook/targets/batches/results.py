"""What a worked-out batch is, part by part, for its page, for the calendar and for what the book learns.

All of it rests on the batch's own file, and on nothing that may change later: see `work_out.work_out_batch`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from gristbook.model.batch import Batch, WortStep
from gristbook.model.figures import words_of
from gristbook.problems import Place, Severity
from gristbook.sheet.value import Value
from gristbook.targets.advice.against import Against
from gristbook.targets.method.step import Sentence

Verdict = Literal["within", "above", "below", ""]
"""Where a measured figure lies against the planned one's nine-in-ten range; "" where nothing was planned."""

Subject = Literal["conversion", "boil-off", "left in kettle", "left in fermenter", "attenuation"]
"""What a batch can teach: all but the last about its brewhouse, the last about its yeast there."""


Vessel = Literal["mash", "kettle", "fermenter"]
"""Where extract is lost."""


@dataclass(frozen=True, slots=True)
class Corrected:
    """A reading put right: ``shown`` as it was read, ``gravity`` what it stands for (SG).

    ``others`` is what other published corrections make of it, by author and year.
    """

    shown: Value
    gravity: Value
    others: tuple[tuple[str, Value], ...]


@dataclass(frozen=True, slots=True)
class Compared:
    """A figure of the brew, by its id, as planned and as measured. ``step`` is the part of the brew day."""

    step: str
    figure: str
    planned: Value | None
    measured: Value
    verdict: Verdict

    @property
    def name(self) -> str:
        """What the figure is called."""
        return words_of(self.figure)


@dataclass(frozen=True, slots=True)
class Loss:
    """How much extract got through a vessel (shares of what came in), and how much was lost there (kg).

    In the fermenter it is the extract of the wort that the lost beer was made from.
    """

    vessel: Vessel
    planned: Value | None
    measured: Value
    lost: Value
    words: str


@dataclass(frozen=True, slots=True)
class MomentFigures:
    """A look at the fermenting beer, ``days`` after the start of the day it was brewed on."""

    when: datetime
    days: float
    reading: Corrected | None
    temperature: Value | None


@dataclass(frozen=True, slots=True)
class Curve:
    """The log, thinned for a chart: days after the start of the brewing day, SG, °C; NaN where it wrote none."""

    days: tuple[float, ...]
    gravities: tuple[float, ...]
    temperatures: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Stability:
    """Whether the gravity had stopped falling, by two readings; `None` where nothing says. ``words`` say why."""

    stable: bool | None
    words: Sentence
    between: tuple[datetime, datetime] | None


@dataclass(frozen=True, slots=True)
class Course:
    """The fermentation: the looks at it, with the final gravity last; the log; whether it was over."""

    moments: tuple[MomentFigures, ...]
    curve: Curve | None
    stability: Stability


@dataclass(frozen=True, slots=True)
class BottleFigures:
    """The beer as it was packaged; gas in volumes, pressure in bar over the air's at the ``warmest`` storage (°C).

    ``carbonation`` is the gas left plus the priming; ``at_the_end`` has what had still to ferment as well.
    ``pressure`` is that of ``at_the_end``. ``against`` is what speaks against it in this vessel, and ``comfort`` what
    may be said for it, empty where anything is unknown.
    """

    residual: Value | None
    priming: Value | None
    carbonation: Value | None
    unfinished: Value | None
    at_the_end: Value | None
    warmest: Value
    pressure: Value | None
    against: tuple[Against, ...]
    comfort: Sentence


@dataclass(frozen=True, slots=True)
class Lesson:
    """What a batch teaches about one thing; ``aside`` says why it is set aside, "" where it counts.

    The yeast is named only where the lesson is its attenuation.
    """

    subject: Subject
    brewhouse: str
    yeast: str
    value: Value
    aside: str
    batch: str
    place: Place


@dataclass(frozen=True, slots=True)
class Remedy:
    """Something to do about a gravity or a volume: boil on (min), pour in water (L), stir in dried malt extract (kg).

    ``keep`` is the wort to go on with where there is too much of it, as it was measured (L), ``leave_out`` the top-up
    water not to pour in (L). ``gravity`` and ``volume`` (L, cool) are what the vessel then holds, ``bitterness`` what
    the beer then has (IBU), `None` where the plan names none.
    """

    boil_on: Value | None
    water: Value | None
    extract: Value | None
    keep: Value | None
    leave_out: Value | None
    gravity: Value
    volume: Value
    bitterness: Value | None


@dataclass(frozen=True, slots=True)
class Adjustment:
    """What can be done on the day about wort that is not as planned.

    ``step`` is where it was measured. ``gravity`` and ``volume`` (L, cool) are what was measured there; ``wanted`` and
    ``wanted_volume`` are what the plan wants in the ``vessel``: the kettle at the end of the boil, or the fermenter,
    where the brew is topped up or was measured there; with the beer's planned ``bitterness`` (IBU). ``unmended`` is
    what it comes to when nothing is done, topped up to the batch; where that ``fits``, nothing need be done. It may
    not fit and have no remedy that a cook would take. ``words`` are what to mind.
    """

    step: WortStep
    vessel: Literal["kettle", "fermenter"]
    gravity: Value
    volume: Value
    wanted: Value
    wanted_volume: Value
    bitterness: Value | None
    fits: bool
    unmended: Remedy
    remedies: tuple[Remedy, ...]
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Occasion:
    """A day of the batch for a calendar: "brewing", "dry hopping", "packaging" or "ready".

    ``reckoned`` is true of a day that nobody wrote down and that follows from the plan.
    """

    what: Literal["brewing", "dry hopping", "packaging", "ready"]
    day: str
    reckoned: bool


@dataclass(frozen=True, slots=True)
class Fault:
    """Something in the batch that cannot be, or that must not be left so; ``words`` for a problem or a page."""

    severity: Severity
    place: Place
    words: Sentence


@dataclass(frozen=True, slots=True)
class BatchFigures:
    """A batch with all that follows from its own file. Attenuations are fractions, alcohol per cent by volume.

    ``abv`` is as brewed, before priming.
    """

    batch: Batch
    compared: tuple[Compared, ...]
    losses: tuple[Loss, ...]
    mash_efficiency: Value | None
    boil_off: Value | None
    original: Corrected | None
    final: Corrected | None
    apparent_attenuation: Value | None
    real_attenuation: Value | None
    abv: Value | None
    course: Course
    bottles: BottleFigures | None
    lessons: tuple[Lesson, ...]
    adjustments: tuple[Adjustment, ...]
    occasions: tuple[Occasion, ...]
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True)
class Difference:
    """A line of the recipe as it stood when it was brewed and as it stands today; "" where there is none."""

    section: str
    then: str
    now: str
