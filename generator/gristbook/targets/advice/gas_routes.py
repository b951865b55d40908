"""The routes to gas that no vessel was filled for, and what ferments on in it: rows of bounds, and their reader."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import inf

from gristbook.model.batch import Vessel
from gristbook.model.extra import Extra
from gristbook.model.moment import BeforeTheBoil, Stage
from gristbook.model.recipe import Recipe, Sugar
from gristbook.model.steps import FermentStep
from gristbook.model.yeast import Yeast
from gristbook.problems import Place, Severity
from gristbook.sheet.arithmetic import sum_of
from gristbook.sheet.origin import Given
from gristbook.sheet.value import Value, given
from gristbook.targets.advice.against import Against
from gristbook.targets.advice.eaten import eaten, left_to_go_dry
from gristbook.targets.advice.gas import beyond
from gristbook.targets.advice.gas_words import eats_on, is_alive, is_sweet
from gristbook.targets.beer.finished import LAST, diastatic, in_the_beer, warm_steps
from gristbook.targets.conventions import PRACTICE, WARMEST_STORAGE
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Kind, kept_in, names, say, spoken

QUICKEST: tuple[tuple[float, float], ...] = ((28.0, 2.0), (15.0, 4.0), (-inf, 7.0))
"""From this warmth on (°C), the fewest days in which any usual beer ferments out (common practice, no source)."""
DEXTRINS_TAKE = 10.0
"""The fewest days where dextrins ferment as well, with two readings a week apart (common practice, no source)."""
SUGAR_DAYS = 7.0, 3.0
"""Days that a sugar in the fermenter is usually given, and those that its two readings take (common practice)."""
ATTENUATION_SLACK = 0.05, 0.25
"""So far below what is known of it, a stated attenuation is odd, and so far below, nobody means it (our own)."""
BEARS = 1.5
"""No yeast of a family bears this many times what its family does (our own, from the pantry's tolerances)."""
IN_HEAVY = "use heavy bottles made for pressure, and package only once the gravity no longer falls."


@dataclass(frozen=True, slots=True)
class Met:
    """A figure of a recipe, its line, what it is of, and the bounds that it is held to: the usual, and the possible."""

    figure: Value
    place: Place
    name: str
    usual: float
    possible: float


@dataclass(frozen=True, slots=True)
class Route:
    """One way to gas that nobody reckoned with; ``too_little`` tells whether the bounds are below the figure.

    ``words`` name the figure as {figure} and, behind it, what it is of as {name}.
    """

    met: Callable[[Plan], Iterator[Met]]
    too_little: bool
    words: str
    kinds: tuple[Kind, ...]
    short: str = ""
    source: str = PRACTICE

    def against(self, plan: Plan) -> Iterator[Against]:
        """What of it speaks against a plan."""
        before, _, after = self.words.partition("{figure}")
        for met in self.met(plan):
            odd, impossible = (
                met.figure.number < bound if self.too_little else met.figure.number > bound
                for bound in (met.usual, met.possible)
            )
            if odd or impossible:
                severity = Severity.ERROR if impossible else Severity.WARNING
                said = (before, met.figure, after.replace("{name}", met.name))
                yield Against(severity, met.place, said, self.kinds, self.short, self.source)


def _days(steps: tuple[FermentStep, ...], label: str) -> Value:
    return steps[0].days if len(steps) == 1 else sum_of((it.days for it in steps), label)


def _ferments(plan: Plan) -> Iterator[Met]:
    steps = warm_steps(plan.recipe)
    if steps:
        warmest = max(step.warmest.number for step in steps)
        fewest = next(days for heat, days in QUICKEST if warmest >= heat)
        fewest = max(fewest, DEXTRINS_TAKE) if diastatic(plan.recipe) else fewest
        days = _days(steps, "days in which it ferments")
        yield Met(days, steps[0].place, "", fewest, QUICKEST[0][1])


def _fed(plan: Plan) -> Iterator[Met]:
    """Each sugar that is put into the beer, with the days that it has."""
    recipe = plan.recipe
    sweet = [it for it in _sweet(recipe) if it.moment is not Stage.PACKAGING]
    fruit = [it for it in in_the_beer(recipe) if is_sweet(it.name) and it.moment is not Stage.FERMENTED]
    lines: list[Sugar | Extra] = [*sweet, *fruit]
    for it in lines:
        days = _warm(it.days if isinstance(it, Sugar) else _last_days(it), recipe)
        if days is not None:
            yield Met(days, it.place, spoken(it.name), *SUGAR_DAYS)


def _sweet(recipe: Recipe) -> list[Sugar]:
    """Sugar and fruit that join after the boil, and ferment."""
    return [it for it in recipe.sugars if it.into_fermenter and it.attenuation.number > 0]


def _warm(last: Value | None, recipe: Recipe) -> Value | None:
    """The warm ones of the last days before packaging, or of all where nobody says how many; `None` where none is."""
    steps = warm_steps(recipe)
    cold = sum(step.days.number for step in recipe.ferment[len(steps) :])
    if last is None or not cold:
        return last or (_days(steps, "days in which it ferments") if steps else None)
    origin = "the last days before packaging, less those in the cold"
    return given(max(last.number - cold, 0.0), "d", last.label, words=origin)


def _lies(plan: Plan) -> Iterator[Met]:
    """Whatever lies in the beer for so many days until it is packaged."""
    recipe = plan.recipe
    most = sum(step.days.number for step in recipe.ferment)
    lines = [(kept_in(hop.use), hop.place, hop.name) for hop in recipe.hops]
    lines += [(sugar.days, sugar.place, sugar.name) for sugar in recipe.sugars]
    lines += [(kept_in(extra.moment), extra.place, extra.name) for extra in recipe.extras]
    for days, place, name in lines:
        if days is not None and recipe.ferment:
            yield Met(days, place, spoken(name), most, most)


def _bears(plan: Plan) -> Iterator[Met]:
    """The strength; that it is above the yeast's tolerance is advice, and a caution of its own."""
    hardiest = max(plan.recipe.yeasts, key=lambda yeast: yeast.tolerance_abv)
    most = BEARS * hardiest.tolerance_abv
    yield Met(plan.figures.fermentation.abv, hardiest.place, spoken(hardiest.name), most, most)


def _overstated(plan: Plan) -> Iterator[Met]:
    for sugar in plan.recipe.sugars:
        most = sugar.usual_attenuation[1] + ATTENUATION_SLACK[0]
        yield Met(sugar.attenuation, sugar.place, spoken(sugar.name), most, inf)


def _attenuates(plan: Plan) -> Iterator[Met]:
    """What lines say of a yeast and of a sugar; what batches have taught is no slip."""
    lines: tuple[Yeast | Sugar, ...] = (*plan.recipe.yeasts, *plan.recipe.sugars)
    for line in lines:
        if isinstance(line.attenuation.made, Given):
            odd, absurd = (line.usual_attenuation[0] - slack for slack in ATTENUATION_SLACK)
            yield Met(line.attenuation, line.place, spoken(line.name), odd, absurd)


ROUTES: tuple[Route, ...] = (
    Route(
        _ferments,
        True,
        "It ferments for {figure} before it is cooled or packaged: what has not fermented by then does so in the "
        "bottle or the keg.",
        ("ferment", "finished"),
        "It has few days: wait for two readings that agree.",
    ),
    Route(
        _fed,
        True,
        "A time of {figure} is left for {name} to ferment out: give it a week, and then take two readings, or what "
        "is left of its sugar ferments in the bottle.",
        ("feed", "finished"),
        "Sugar late: two readings after it.",
    ),
    Route(
        _lies,
        False,
        "For the last {figure} {name} is to lie in the beer, and the whole of the fermentation is shorter than that.",
        ("dry-hop", "feed"),
    ),
    Route(
        _bears,
        False,
        "It is to hold {figure} of alcohol, and {name} bears far less: it gives up, and what it leaves may ferment "
        "in the bottle.",
        ("finished",),
        source="the pantry: typical tolerance of the family, from memory",
    ),
    Route(
        _attenuates,
        True,
        "An attenuation of {figure} is stated for {name}, and is usually higher: what the plan leaves over may "
        "ferment in the bottle.",
        ("finished", "bottle"),
        "It may ferment on: wait for two readings that agree.",
        "the pantry: usual attenuation, from memory",
    ),
    Route(
        _overstated,
        False,
        "An attenuation of {figure} is stated for {name}, and is usually lower: the beer stops above the plan, and "
        "looks unfinished.",
        ("finished",),
        source="the pantry: usual attenuation, from memory",
    ),
)


def routes_to_gas(plan: Plan) -> Iterator[Against]:
    """Everything that a plan puts into its bottles or its keg, or leaves in them, and that speaks against them."""
    wanted, packaging = plan.recipe.carbonation, plan.figures.packaging
    if wanted and packaging:
        found = beyond(packaging.volumes.number, WARMEST_STORAGE.number, _vessel(plan), wanted.place)
        yield from (found,) if found else ()
    for route in ROUTES:
        yield from route.against(plan)
    yield from _second_yeasts(plan)
    yield from _ferments_in_glass(plan)
    for sugar in _sweet(plan.recipe):
        yield from _second_life(sugar)
    for extra in plan.recipe.extras:
        if eats_on(extra.name):
            yield from eaten(extra, plan, _vessel(plan), in_beer=extra in in_the_beer(plan.recipe))
        yield from _second_life(extra)


def in_keg(plan: Plan) -> bool:
    """Whether the beer gets its gas under pressure in a keg; bottles where nothing is said."""
    return plan.recipe.carbonation is not None and plan.recipe.carbonation.sugar is None


def _vessel(plan: Plan) -> Vessel:
    """What must bear the gas; a cask is held to what an ordinary bottle bears."""
    held = plan.recipe.carbonation.vessel if plan.recipe.carbonation else "bottles"
    return "keg" if in_keg(plan) else "bottles" if held == "cask" else held


def _ferments_in_glass(plan: Plan) -> Iterator[Against]:
    """Fruit that joins as the beer is packaged: the gas that its sugar makes in there, at the most."""
    late = [it for it in _sweet(plan.recipe) if it.moment is Stage.PACKAGING]
    packaging = plan.figures.packaging
    if not late or packaging is None or packaging.fruit_gas is None:
        return
    most = packaging.residual.number + packaging.fruit_gas.high
    gas = max(most, packaging.volumes.number) if not in_keg(plan) else packaging.volumes.high + packaging.fruit_gas.high
    found = beyond(gas, WARMEST_STORAGE.number, _vessel(plan), late[0].place)
    words = say(
        "The sugar of {it} makes {gas} of gas once it is packaged, less or more as the fruit is: priming is weighed "
        "for the rest.",
        it=names(it.name for it in late),
        gas=packaging.fruit_gas,
    )
    severity = found.severity if found else Severity.WARNING
    kinds: tuple[Kind, ...] = ("prime", "bottle", "keg")
    yield Against(severity, late[0].place, words, kinds, "Fruit ferments in there: heavy bottles.")


def _second_life(extra: Extra | Sugar) -> Iterator[Against]:
    """A yeast that joins when the first has done, or sugar that does."""
    if extra.moment is Stage.FERMENTED and (isinstance(extra, Sugar) or is_sweet(extra.name)):
        words = f"The fermentation starts again with {spoken(extra.name)}: give it a week, and take two readings more."
        yield Against(Severity.WARNING, extra.place, (words,), ("feed",), "Sugar late: two readings after it.")
    elif isinstance(extra, Extra) and _last_days(extra) is not None and is_alive(extra.name):
        yield _goes_on(extra)


def _goes_on(by: Extra | Yeast) -> Against:
    words = f"What the first yeast left may be fermented for weeks by {spoken(by.name)}: {IN_HEAVY}"
    return Against(Severity.WARNING, by.place, (words,), ("finished", "bottle"), "A second yeast: heavy bottles.")


def _second_yeasts(plan: Plan) -> Iterator[Against]:
    """A yeast that goes further than the first: one that joins late, or eats dextrins where the other does not."""
    late = [it for it in plan.recipe.yeasts if it.moment is not None and not isinstance(it.moment, BeforeTheBoil)]
    first = [it for it in plan.recipe.yeasts if it not in late and not it.bacteria]
    for yeast in late:
        if yeast.leaves_nothing:
            yield left_to_go_dry(yeast)
        elif yeast.diastatic:
            yield from eaten(yeast, plan, _vessel(plan), in_beer=True)
        elif first and yeast.attenuation.number > max(it.attenuation.number for it in first):
            yield _goes_on(yeast)
    eaters = [yeast for yeast in plan.recipe.yeasts if yeast.diastatic]
    for yeast in eaters if len(eaters) < len(plan.recipe.yeasts) else ():
        words = f"{yeast.name} ferments for weeks what the other yeast leaves: pitch them together, {IN_HEAVY}"
        yield Against(Severity.WARNING, yeast.place, (words,), ("finished", "bottle"), "Two yeasts: heavy bottles.")


def _last_days(extra: Extra) -> Value | None:
    """Days from when an extra joins the beer to when it is packaged, as far as anybody says."""
    if extra.moment in LAST:
        label = f"days that {extra.name} has in the beer"
        return given(0.0, "d", label, words=f"the recipe: {extra.moment_written}", place=extra.place)
    return kept_in(extra.moment)
