"""From sweet wort to hopped wort: extract and sugar stirred in, the boil counted back from its end, the stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from gristbook.model.extra import Extra
from gristbook.model.moment import BeforePackaging, BeforeTheBoil, BeforeTheEnd, Stand
from gristbook.sheet.value import Value, constant
from gristbook.targets.conventions import practice
from gristbook.targets.figures import Plan
from gristbook.targets.method.lauter import first_wort_hops, joins_early
from gristbook.targets.method.step import (
    Draft,
    Kind,
    Sentence,
    boiled,
    draft,
    listed,
    measured,
    names,
    of_yeast,
    weighed,
)
from gristbook.targets.method.water import stirred_in
from gristbook.targets.results import HopFigures, SugarFigures
from gristbook.targets.wort.small_mash import in_a_bag, is_small
from gristbook.targets.wort.volumes import joins_late

PASTEURISED_C = practice(75.0, "°C", "raw wort, so that it is pasteurised")
PASTEURISED = practice(30.0, "min", "time in which raw wort is pasteurised")
COIL = practice(15.0, "min", "boiling that sanitises a cooling coil")


def boil_steps(plan: Plan) -> Iterator[Draft]:
    """The steps from a full kettle to the end of the boil and the stand after it."""
    volumes = plan.figures.volumes
    yield from _soured(plan)
    early = [line for line in plan.figures.grist.sugars if joins_early(line.sugar, plan.recipe)]
    if early:
        yield draft(
            "dissolve",
            f"Stir in the {_what(early)}",
            "Turn the heat off. Stir in {them} until nothing is left on the bottom.",
            "The kettle should now hold {wort}, measured cool."
            if plan.figures.mash is None or is_small(plan.recipe, plan.brewhouse)
            else "",
            them=_amounts(early),
            wort=volumes.boil,
        )
    hops = first_wort_hops(plan)
    if hops and (plan.figures.mash is None or in_a_bag(plan.recipe, plan.brewhouse)):
        yield draft("first-wort", "Put in the first-wort hops", "Stir {hops} into the hot wort now.", hops=hops)
    yield (
        _pasteurised(plan)
        if plan.recipe.raw
        else draft(
            "boil",
            "Bring it to the boil",
            "Stir in {them}.",
            "Leave the lid off, and stay beside it until the foam has risen and fallen back.",
            "When it rolls steadily, start the clock: {time} to the end of the boil.",
            them=stirred_in(plan, "kettle"),
            time=plan.recipe.boil if plan.recipe.boil.number else None,
        )
    )
    *boiling, last = _timeline(plan)
    for addition in boiling:
        yield from addition.steps(plan.recipe.boil)
    yield draft(
        "flameout",
        "Turn the heat off" if plan.recipe.raw else "End the boil",
        "{held} should hold about {cool}, measured cool."
        if plan.recipe.raw
        else "Turn the heat off. {held} should hold about {hot} hot, or {cool} cool.",
        held=f"With the {_what(last.sugars)} stirred in, the kettle" if last.sugars else "The kettle",
        hot=volumes.end_of_boil_hot,
        cool=volumes.end_of_boil,
        before=last.minutes,
    )
    yield from last.steps(plan.recipe.boil)
    yield from _stands(plan)


def _pasteurised(plan: Plan) -> Draft:
    """What stands for the boil of a raw ale."""
    bitter = any(not isinstance(hop.use, BeforePackaging) for hop in plan.recipe.hops)
    return draft(
        "boil",
        "Heat the wort, and do not boil it",
        "Stir in {them}.",
        "Bring it to {heat}, stirring, and hold it there for {time}: that kills what came with the grain, and no less "
        "does.",
        "No model reckons the bitterness of hops in a wort that does not boil: trust your tongue." if bitter else "",
        them=stirred_in(plan, "kettle"),
        heat=PASTEURISED_C,
        time=PASTEURISED,
    )


def _soured(plan: Plan) -> Iterator[Draft]:
    """A step for each yeast or bacteria that the wort is kept warm with before it is boiled."""
    for line in plan.figures.pitch.yeasts if plan.figures.pitch else ():
        if isinstance(line.yeast.moment, BeforeTheBoil):
            yield draft(
                "warm",
                "Sour the wort",
                "Boil the wort for ten minutes, let it cool to {heat}, and stir in {them}.",
                "Cover it closely, keep it so for {time}, and read its pH: how sour it gets is not reckoned here.",
                "It is to come down to pH {ph}: then boil it, whatever the clock says.",
                "Do not taste what smells foul or grows mould: throw it away.",
                heat=line.yeast.moment.temperature or "blood heat",
                them=of_yeast(line),
                time=line.yeast.moment.days,
                ph=line.yeast.moment.ph,
            )


def _what(lines: list[SugarFigures]) -> str:
    """What is stirred in, for a heading."""
    of_malt = {line.sugar.name: "hopped malt extract" if line.sugar.label else "malt extract" for line in lines}
    return names(of_malt[line.sugar.name] if line.sugar.from_malt else line.sugar.name for line in lines)


def _amounts(lines: list[SugarFigures]) -> Sentence:
    return listed([weighed(line.mass, line.sugar.name) for line in lines])


def _timeline(plan: Plan) -> Iterator[_Addition]:
    """What goes in at every minute at which something does, from the first to the end of the boil."""
    boil = plan.recipe.boil
    late = [line for line in plan.figures.grist.sugars if joins_late(line.sugar, plan.recipe)]
    sugars = [(line.sugar.minutes, line) for line in late if line.sugar.minutes]
    added = plan.figures.bitterness.hops
    hops = [(line.hop.use.minutes, line) for line in added if isinstance(line.hop.use, BeforeTheEnd)]
    extras = [(minutes, extra) for extra in plan.recipe.extras if (minutes := boiled(extra, boil))]
    given = (*(t for t, _ in sugars), *(t for t, _ in hops), *(t for t, _ in extras), COIL, constant(0.0, "min"))
    times = [time for time in given if time]
    for number, minutes in sorted({time.number: time for time in reversed(times)}.items(), reverse=True):
        yield _Addition(
            minutes,
            [line for time, line in sugars if time.number == number],
            [line for time, line in hops if time and time.number == number],
            [extra for time, extra in extras if time.number == number],
        )


@dataclass(frozen=True, slots=True)
class _Addition:
    """All that goes in at one time before the end of the boil."""

    minutes: Value
    sugars: list[SugarFigures]
    hops: list[HopFigures]
    extras: list[Extra]

    def steps(self, boil: Value) -> Iterator[Draft]:
        """The step, or none: what has to dissolve comes first, with the heat off."""
        rest = [*(weighed(line.mass, line.hop.name) for line in self.hops), *(measured(extra) for extra in self.extras)]
        if self.sugars:
            off = "turn the heat off and " if self.minutes.number else ""
            yield draft(
                "dissolve",
                f"Stir in the {_what(self.sugars)}",
                "{when}{off}stir in {them} until nothing is left on the bottom.",
                "Bring it back to the boil before you go on counting." if off else "",
                "Add {rest} too.",
                when=self._when(boil),
                off=off,
                them=_amounts(self.sugars),
                rest=listed(rest),
                before=self.minutes,
            )
        elif rest:
            called = names([*(line.hop.name for line in self.hops), *(extra.name for extra in self.extras)])
            if roles := names(line.hop.called for line in self.hops if line.hop.called):
                called = f"{called}: {roles}"
            kind: Kind = "hops" if self.hops else "addition"
            words = "{when}add {rest}."
            yield draft(kind, f"Add {called}", words, when=self._when(boil), rest=listed(rest), before=self.minutes)
        if self.minutes.number == COIL.number <= boil.number:
            coil = "If you cool with a coil of tubing, wash it and hang it in the kettle {before} before the end."
            yield draft("coil", "Boil the cooling coil", coil, before=COIL)

    def _when(self, boil: Value) -> Sentence:
        if self.minutes.number == 0:
            return ("With the heat off, ",)
        at_once = ("At once, ",) if self.minutes.number >= boil.number else ()
        return (*at_once, self.minutes, " before the end, ")


def _stands(plan: Plan) -> Iterator[Draft]:
    """A step for each stand, from the hottest to the coolest."""
    alike: dict[tuple[float, ...], tuple[Stand, list[HopFigures]]] = {}
    for line in plan.figures.bitterness.hops:
        if isinstance(line.hop.use, Stand):
            alike.setdefault(_alike(line.hop.use), (line.hop.use, []))[1].append(line)
    for _, (stand, lines) in sorted(alike.items(), key=lambda item: item[0], reverse=True):
        falls = stand.end.number < stand.start.number
        then = "Let it fall to {heat} over {time}." if falls else "Keep it at {heat} for {time}."
        if stand.air is not None:
            then = "Leave it to cool by itself: it should come to about {heat} in {time}."
        word = next((line.hop.called for line in lines if line.hop.called), "")
        yield draft(
            "stand",
            f"Let the hops stand: {word}" if word else "Let the hops stand",
            "When the wort has come to {from_heat}, stir in {hops} and put the lid on.",
            then,
            from_heat=stand.start,
            hops=listed([weighed(line.mass, line.hop.name) for line in lines]),
            heat=stand.end,
            time=stand.minutes,
        )


def _alike(stand: Stand) -> tuple[float, ...]:
    """What hops that stand together have in common: the heat at both ends, and the minutes."""
    parts = (stand.start, stand.end, stand.minutes, stand.air)
    return tuple(part.number if part is not None else 0.0 for part in parts)
