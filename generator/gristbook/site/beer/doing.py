"""The brew in a few lines: a word and what is done. The card has them, and the recipe's page with what goes when."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from gristbook.model.extra import Extra
from gristbook.model.hop import Hop
from gristbook.model.moment import IN_THE_BEER, BeforePackaging, BeforeTheEnd, FirstWort, Stand
from gristbook.site.beer.ingredients import AT_THE_END, hop_when, moment_of, sugar_time
from gristbook.site.beer.steps import rest_in_short, step_in_short
from gristbook.site.figures import Sentence, joined
from gristbook.site.words import capital
from gristbook.targets.figures import Plan
from gristbook.targets.method.lauter import sparge_heat
from gristbook.targets.method.step import Step, spoken

READY = ("starter", "weigh", "crush", "clean", "water")
"""What is done before the fire is lit, by the kind of step."""


def in_stages(plan: Plan, steps: Sequence[Step]) -> Iterator[tuple[str, Sentence]]:
    """The whole brew, a line or two for each stage: what, how much and how long."""
    ready = [step.title for step in steps if step.kind in READY]
    if ready:
        yield "Get ready", (capital(", ".join(title[:1].lower() + title[1:] for title in ready)),)
    for word, words in doing_of(plan):
        yield word, ((*words, *_hopped(plan)) if word == "Boil" else words)
    if plan.figures.packaging:
        yield "Wait", ("until ", plan.figures.packaging.ready, " after the yeast went in")


def _hopped(plan: Plan) -> Sentence:
    """The hops that go into the kettle, each with its time there."""
    lines = [
        (line.mass, f" {line.hop.name}", *when) for line in plan.figures.bitterness.hops if (when := _in(line.hop))
    ]
    return ("; hops: ", *joined(lines, ", ")) if lines else ()


def _in(hop: Hop) -> Sentence:
    """How long hops are in the kettle; nothing of those that are not."""
    match hop.use:
        case FirstWort():
            return (" from the first wort on",)
        case BeforeTheEnd(minutes):
            return (" for ", minutes) if minutes.number else (" ", *AT_THE_END)
        case Stand(minutes, start):
            return (" to stand ", minutes, " from ", start)
    return ()


def doing_of(plan: Plan) -> Iterator[tuple[str, Sentence]]:
    """The brew in a few lines: a word and what is done."""
    recipe, figures = plan.recipe, plan.figures
    if figures.mash:
        rests = joined([rest_in_short(step) for step in recipe.mash], ", then ")
        yield "Mash", (figures.mash.water, " at ", figures.mash.strike, "; rest ", *rests)
        if figures.mash.sparge is not None:
            yield "Sparge", ("with ", figures.mash.sparge, " at ", sparge_heat(plan))
    steeped = [(f"{malt.name}, ", malt.steep) for malt in recipe.malts if malt.steep]
    if steeped:
        yield "Steep", joined([(name, steep.minutes, " at ", steep.temperature) for name, steep in steeped], "; ")
    boil = recipe.boil if recipe.boil.number else "none: raw" if recipe.raw else "only to the boil"
    yield "Boil", (boil, ", from ", figures.volumes.boil, *_into_the_boil(plan))
    if figures.volumes.top_up is not None:
        yield "Top up", ("with ", figures.volumes.top_up)
    if recipe.ferment:
        yield "Pitch", ("at ", recipe.pitched_at or "")
        yield "Ferment", joined([step_in_short(step) for step in recipe.ferment], ", then ")
    later = [*_later(plan)]
    if later:
        yield "Add", joined(later, "; ")
    packaging, wanted = figures.packaging, recipe.carbonation
    if packaging and packaging.sugar is not None and wanted and wanted.sugar:
        fresh = packaging.fresh_yeast
        yeast = (", with ", fresh, " of fresh dried yeast") if fresh is not None else ()
        yield "Prime", (packaging.sugar, f" of {spoken(wanted.sugar.name)} for ", packaging.volumes, *yeast)
    elif packaging:
        yield "Keg", ("to ", packaging.volumes)
    else:
        yield "Gas", ("none: still" if recipe.still else "none given, so no sugar goes in",)


def _into_the_boil(plan: Plan) -> Sentence:
    """The sugars that join late, by their time; hops and finings stand with their times among what is weighed."""
    joining: dict[float, tuple[Sentence, list[str]]] = {}
    for sugar in plan.recipe.sugars:
        if sugar.minutes is not None and not sugar.into_fermenter:
            _, names = joining.setdefault(sugar.minutes.number, (sugar_time(sugar), []))
            names.append(sugar.name)
    late = [(f"; {', '.join(dict.fromkeys(names))} ", *when) for when, names in joining.values()]
    return joined(late, "")


def _later(plan: Plan) -> Iterator[Sentence]:
    for sugar in plan.recipe.sugars:
        if sugar.into_fermenter:
            yield (f"{sugar.name} ", *sugar_time(sugar))
    for hop in plan.recipe.hops:
        if isinstance(hop.use, BeforePackaging) or hop.use in IN_THE_BEER:
            yield (f"{hop.name}, ", *hop_when(hop))
    for extra in plan.recipe.extras:
        if _is_late(extra):
            yield (f"{extra.name} ", *moment_of(extra))


def _is_late(extra: Extra) -> bool:
    return isinstance(extra.moment, BeforePackaging) or extra.moment in IN_THE_BEER
