"""What the page for the day of a brew is given."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import chain

from markupsafe import Markup

from gristbook.equations.instruments import hydrometer_corrected
from gristbook.model.batch import WortStep
from gristbook.site.amounts import bare
from gristbook.site.beer.asked import Asked, asked
from gristbook.site.beer.brewday import BrewDay, brew_day
from gristbook.site.beer.brews import Brew, OtherBrew
from gristbook.site.beer.cases import Cases, cases_of
from gristbook.site.beer.stages import Stage, stages
from gristbook.site.learn.learning_pages import explained
from gristbook.site.pages import Link
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.targets.conventions import CALIBRATION
from gristbook.targets.hops.bitterness import goes_late
from gristbook.targets.method.step import Sentence, Step
from gristbook.targets.results import HopFigures

MEASURED_AT: Mapping[WortStep, tuple[str, ...]] = {
    "before the boil": ("check", "boil"),
    "end of the boil": ("flameout",),
    "in the fermenter": ("read",),
}
"""The kind of step at which wort is measured: the first of these that the brew has."""

READ_AT: Mapping[WortStep, tuple[str, ...]] = {
    "before the boil": ("before the boil",),
    "end of the boil": ("end of the boil",),
    "in the fermenter": ("into the fermenter", "original gravity"),
}
"""The fields of a batch that say it."""

LOOKED_UP: Mapping[str, tuple[str, ...]] = {
    "mash": ("rest", "mash"),
    "starter": ("starter",),
    "topping-up": ("top-up",),
    "hydrometer": ("read",),
}
"""What is looked up at which kind of step, by the name of its template."""


WARMTH = tuple(
    f"{hydrometer_corrected(reading=1.0, sample_c=float(warm), calibration_c=CALIBRATION.number):.5f}"
    for warm in range(0, 45, 5)
)
"""What a hydrometer's reading is multiplied by, for each 5 °C up to where a sample is too warm to tell much."""


@dataclass(frozen=True, slots=True)
class DayStep:
    """A step as the day has it: the ``care`` that is shown is all that kills, burns or maims, or else the first of the
    others; the rest is ``folded``. ``beside`` names what is looked up here.
    """

    number: int
    step: Step
    care: tuple[Sentence, ...]
    folded: tuple[Sentence, ...]
    asked: tuple[Asked, ...]
    cases: Cases | None
    beside: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Own:
    """An addition whose weight goes by its packet's alpha acids, which one packet may share with others.

    ``grams`` and ``alpha`` are the plan's, for a machine to read; ``packet`` is which packet it is, asked at its
    ``first`` addition.
    """

    line: HopFigures
    packet: int
    first: bool
    grams: str
    alpha: str


@dataclass(frozen=True, slots=True)
class DayPage:
    """The whole method of one brew; ``made`` is what its edition is and ``edition`` its line, "" as it was written.

    ``care`` is what holds for the whole day, and ``aids`` what to do when it happened; ``packets`` are the hops that
    are weighed by what their packets say; ``asked`` is all that is measured. ``warmth`` is what the gravity of a sample
    is multiplied by at 0 °C, 5 °C and so on, where a hydrometer is made for 20 °C.
    """

    brew: Brew
    title: Markup
    name: str
    made: str
    edition: str
    care: tuple[Sentence, ...]
    aids: tuple[str, ...]
    packets: tuple[Own, ...]
    method: tuple[tuple[Stage, tuple[DayStep, ...]], ...]
    additions: tuple[DayStep, ...]
    asked: tuple[Asked, ...]
    day: BrewDay
    us: bool
    warmth: tuple[str, ...]
    learn: Mapping[str, tuple[Link, ...]]


def day_page(brew: Brew, printing: Printing, made: OtherBrew | None = None) -> DayPage:
    """The day of one brew, its words linked to the glossary."""
    us = made.made.edition.us if made else printing.book.units == "US"
    fields = tuple(asked(brew.plan, us=us))
    told = tuple(stages(brew.steps, printing.written.desk.glossary.on(brew.at.day)))
    day, by_field = brew_day(brew.plan), {it.field: it for it in fields}
    found = _placed(told, cases_of(brew.plan), by_field, _there(day))
    steps = tuple(found)
    method = tuple((part, tuple(it for it in steps if 0 <= it.number - part.first < len(part.steps))) for part in told)
    whole = [said for step in brew.steps for said, rank in _ranked(step) if rank == "day"]
    return DayPage(
        brew=brew,
        title=line(brew.plan.recipe.title),
        name=plain(brew.plan.recipe.title),
        made=made.words if made else "",
        edition=made.made.edition.name if made else "",
        care=tuple(dict.fromkeys(whole)),
        aids=tuple(dict.fromkeys(chain.from_iterable(step.aids for step in brew.steps))),
        packets=tuple(_packets(brew)),
        method=method,
        additions=tuple(it for it in steps if it.step.clock and it.step.clock.before_the_end),
        asked=fields,
        day=day,
        us=us,
        warmth=WARMTH,
        learn=explained(printing.book.learning),
    )


def _there(day: BrewDay) -> frozenset[str]:
    """What there is to look up."""
    has = {"mash": day.mash, "starter": day.starters, "topping-up": day.topping_up, "hydrometer": day.hydrometer}
    return frozenset(name for name, it in has.items() if it)


def _ranked(step: Step) -> Iterator[tuple[Sentence, str]]:
    return zip(step.cautions, step.ranks, strict=True)


def _placed(
    told: tuple[Stage, ...], cases: Mapping[WortStep, Cases], fields: Mapping[str, Asked], there: frozenset[str]
) -> Iterator[DayStep]:
    """Every step with what is measured and looked up at it: each thing at the first step that it belongs to."""
    kinds = {step.kind for stage in told for step in stage.steps}
    looked = {name: _first(at, kinds) for name, at in LOOKED_UP.items() if name in there}
    measured = {where: _first(at, kinds) for where, at in MEASURED_AT.items()}
    for stage in told:
        for number, step in enumerate(stage.steps, stage.first):
            beside = tuple(name for name, kind in looked.items() if kind == step.kind)
            here = [where for where, kind in measured.items() if kind == step.kind]
            looked = {name: kind for name, kind in looked.items() if name not in beside}
            measured = {where: kind for where, kind in measured.items() if where not in here}
            grave = tuple(said for said, rank in _ranked(step) if rank == "grave")
            others = tuple(said for said, rank in _ranked(step) if rank == "step")
            yield DayStep(
                number,
                step,
                grave or others[:1],
                others if grave else others[1:],
                tuple(fields[name] for where in here for name in READ_AT[where] if name in fields),
                next((cases[where] for where in here if where in cases), None),
                beside,
            )


def _first(kinds: tuple[str, ...], there: set[str]) -> str:
    return next((kind for kind in kinds if kind in there), "")


def _packets(brew: Brew) -> Iterator[Own]:
    """Hops that are there for bitterness, by their packets; late and dry ones stay as they are."""
    packets, asked_of = dict[tuple[str, float], int](), set[int]()
    for it in brew.plan.figures.bitterness.hops:
        hop = it.hop
        if it.minutes is None or hop.alpha.number <= 0 or goes_late(hop):
            continue
        packet = packets.setdefault((hop.name, hop.alpha.number), len(packets))
        first = packet not in asked_of
        asked_of.add(packet)
        yield Own(it, packet, first, bare(it.mass.number), bare(100 * hop.alpha.number))
