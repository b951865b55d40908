"""The plans of a book: every recipe worked out in its brewhouse, and what only the figures can show to be wrong."""

from __future__ import annotations

from dataclasses import replace
from math import inf

from gristbook.model.book import Book
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.figures import FIGURES, words_of
from gristbook.model.moment import BeforePackaging
from gristbook.model.recipe import Expectation, Recipe
from gristbook.problems import Place, Problem, Problems, Severity, in_us, nearest, spoken
from gristbook.refusal import Refusal
from gristbook.sheet.value import Value
from gristbook.targets.advice.advice import Advice, advise
from gristbook.targets.advice.advice_rows import ROWS
from gristbook.targets.advice.against import told
from gristbook.targets.advice.doses import doses
from gristbook.targets.advice.gas_routes import routes_to_gas
from gristbook.targets.advice.misfits import misfits
from gristbook.targets.beer.packaging import priming_sugars
from gristbook.targets.blame import CANNOT, blamed
from gristbook.targets.buying.cost import cost_of
from gristbook.targets.by_water import by_their_water, dosed_by_the_litre, heated_where_it_must_be
from gristbook.targets.chain import work_out
from gristbook.targets.figures import Plan
from gristbook.targets.water.chemistry import capped


def plan_book(book: Book, problems: Problems) -> tuple[Plan, ...]:
    """The plan of every recipe that can be brewed; the others have filed their problems."""
    plans = (plan_recipe(recipe, book, problems) for recipe in book.recipes)
    return tuple(plan for plan in plans if plan is not None)


def plan_recipe(recipe: Recipe, book: Book, problems: Problems) -> Plan | None:
    """One recipe in its own brewhouse, or `None` with a problem filed where it cannot be brewed."""
    brewhouse = book.brewhouses[recipe.brewhouse].holding(recipe.batch)
    before = len(problems.errors(recipe.place.path))
    plan, amiss = _tried(recipe, brewhouse, book)
    for problem in blamed(amiss, recipe, brewhouse, lambda house: not _tried(recipe, house, book)[1]):
        problems.file(problem)
    if plan is None:
        return None
    for step, said in zip(plan.recipe.mash, recipe.mash, strict=True):
        if step.way != said.way:
            what = "more boiling water than there is would go in: the rest is reached by heat"
            problems.warning(step.place, what, expected="heat in its line, decoction, or a thicker mash", once="heat")
    _check_water(plan, problems)
    for expectation in recipe.expectations:
        _check_expectation(expectation, plan, problems)
    _check_amounts(plan, problems)
    _check_advice(plan, problems)
    return plan if len(problems.errors(recipe.place.path)) == before else None


def _tried(recipe: Recipe, brewhouse: Brewhouse, book: Book) -> tuple[Plan | None, tuple[Problem, ...]]:
    """A recipe worked out in some vessels, and why it cannot be brewed there."""
    amiss, us = Problems(), book.units == "US"
    try:
        recipe = heated_where_it_must_be(by_their_water(recipe, book), brewhouse, book)
        recipe = dosed_by_the_litre(recipe, book)
        figures = work_out(recipe, brewhouse, book.bitterness_model, book.colour_model)
    except Refusal as refusal:
        amiss.error(recipe.place, f"{CANNOT}{in_us(str(refusal)) if us else refusal}")
        return None, tuple(amiss)
    cost = cost_of(recipe, figures, book.prices)
    plan = Plan(recipe, brewhouse, book.bitterness_model, book.colour_model, figures, cost, us)
    _check_vessels(plan, amiss)
    return plan, tuple(amiss)


def faults(plan: Plan, problems: Problems) -> None:
    """What a plan's vessels and bottles cannot hold."""
    _check_amounts(plan, problems)
    _check_vessels(plan, problems)


def _check_vessels(plan: Plan, problems: Problems) -> None:
    """What does not fit, and what nobody means.

    Vessels are as they are, so the batch is what has to change, where it is the recipe's own.
    """
    own, batch = plan.recipe.place, plan.recipe.batch.place
    for misfit in misfits(plan):
        place = batch if batch and batch.path == own.path else misfit.vessel and misfit.vessel.place
        at = place if misfit.vessel and place else own
        problems.file(Problem(at, misfit.what, expected=misfit.expected, safety=True, stops=own.path))
    _check_mash_water(plan, problems)
    _check_slips(plan, problems)


def _check_mash_water(plan: Plan, problems: Problems) -> None:
    """Mash water that is more than the wort takes in vessels that were assumed, and is not reckoned then."""
    mash, own = plan.figures.mash, plan.recipe.mash[0].water if plan.recipe.mash else None
    if mash is None or own is None or not plan.brewhouse.assumed or own.number <= mash.water.number * (1 + 1e-9):
        return
    place = own.place or plan.recipe.place
    told, taken = (spoken(it, "L", us=plan.us) for it in (own.number, mash.water.number))
    what = f"{told} of mash water is more than this wort takes in vessels that nobody described: {taken} is reckoned"
    problems.warning(place, what, expected="your vessels, under brewhouses in book.yaml")


def _check_water(plan: Plan, problems: Problems) -> None:
    """More of the only water than the brew takes, of which the rest is left."""
    total = plan.figures.water.total
    if much := capped(plan.recipe.water, total):
        told, taken = (spoken(it.number, "L", us=plan.us) for it in (much.amount.value, total))
        what = f"{told} of this water are more than the {taken} that the brew takes: so much of it is taken"
        problems.warning(much.place, what, expected=f"{taken}, or its name alone")


def _check_expectation(expectation: Expectation, plan: Plan, problems: Problems) -> None:
    """The author's own test of the recipe."""
    value, words, place = plan.sheet.get(expectation.figure), words_of(expectation.figure), expectation.place
    if value is None:
        near = nearest(words, (row.words for row in FIGURES if row.id in plan.sheet))
        if words == expectation.figure:
            problems.error(place, f'no figure is called "{words}"', suggestion=near)
        else:
            tell = problems.error if expectation.tolerance is not None else problems.warning
            tell(place, f"{words}: nothing here tells it, so it is not compared")
        return
    factor, places = _factor(expectation.base, value.unit), ".3f" if value.unit == "SG" else ".4g"
    if factor is None:
        problems.error(place, f"{words} is not in this unit", expected=value.unit)
        return
    wanted, tolerance = expectation.number * factor, expectation.tolerance
    if tolerance is not None and abs(value.number - wanted) > tolerance * factor + 1e-9:
        pinned, now = f"{wanted:{places}} ± {tolerance * factor:.2g}", f"{value.number:{places}}"
        if plan.brewhouse.assumed:
            problems.warning(place, f"{words} comes to {now} in vessels that nobody described", expected=pinned)
        else:
            problems.error(place, f"{words} has drifted to {now}", expected=pinned)
    elif tolerance is None and not value.low <= wanted <= value.high:
        said = [spoken(number, value.unit, us=plan.us) for number in (value.number, value.low, value.high, wanted)]
        comes = "{} comes to {}, and in nine brews of ten to {} to {}".format(words, *said)
        problems.warning(place, comes, expected=f"{said[3]}, as this says")


def _factor(base: str, unit: str) -> float | None:
    """What turns an expectation's base into the figure's unit; `None` where the two do not go together."""
    if base in ("", unit):
        return 1.0
    return {("fraction", "%"): 100.0, ("kg", "g"): 1000.0}.get((base, unit))


def _check_advice(plan: Plan, problems: Problems) -> None:
    """Advice that the author does not say is meant is a warning; an intention has to answer to some advice."""
    given = advise(plan, ROWS)
    for advice in given:
        if not (advice.meant or advice.quiet) and advice.severity is Severity.WARNING:
            problems.warning(
                _place(advice, plan),
                f"{advice.words} {_usually(advice, plan.us)}",
                expected=f"as usual, or meant: {advice.key}: why",
            )
    keys = {row.key for row in ROWS}
    for intention in plan.recipe.meant:
        if intention.advice not in keys:
            problems.error(
                intention.place,
                f'there is no advice on "{intention.advice}"',
                suggestion=nearest(intention.advice, keys),
            )
        elif intention.advice not in {advice.key for advice in given}:
            problems.warning(intention.place, f'nothing is said against "{intention.advice}", so nothing need be meant')


def _check_slips(plan: Plan, problems: Problems) -> None:
    """What nobody means, whatever stands under `meant:`."""
    for advice in advise(plan, ROWS):
        if advice.severity is Severity.ERROR:
            low, high = (replace(advice.figure, number=bound) for bound in advice.possible)
            said = f"{advice.words} {_short(advice.figure, plan.us)}"
            problems.error(_place(advice, plan), said, expected=_spanned(low, high, plan.us))


def _place(advice: Advice, plan: Plan) -> Place:
    """The line that advice is about, where it is one of the recipe's own."""
    own = advice.place is not None and advice.place.path == plan.recipe.place.path
    return advice.place if advice.place is not None and own else plan.recipe.place


def _usually(advice: Advice, us: bool) -> str:
    """A figure and its usual span, as short as an author needs them."""
    return f"{_short(advice.figure, us)}, usually {_spanned(advice.low, advice.high, us)}"


def _spanned(low: Value | None, high: Value | None, us: bool) -> str:
    spans = [f"from {_short(low, us)}"] if low and 0 < abs(low.number) < inf else []
    spans += [f"to {_short(high, us)}"] if high and 0 < abs(high.number) < inf else []
    return " ".join(spans) or "none"


def _short(value: Value, us: bool) -> str:
    return spoken(value.number, value.unit, us=us and not value.metric)


def _check_bitterness(plan: Plan, problems: Problems) -> None:
    """Hops of which nothing is reckoned."""
    hop = next((it for it in plan.recipe.hops if not isinstance(it.use, BeforePackaging)), None)
    if plan.recipe.raw and hop is not None:
        what = "no model reckons the bitterness of hops in a wort that does not boil"
        problems.warning(hop.place, f"{what}: only what a boil would give is")


UNGASSED = "no carbonation is given, so no sugar and no pressure are reckoned"
GASSED = "carbonation: 2.4 volumes, primed with table sugar, or 2.4 volumes, keg, or still"


def _check_amounts(plan: Plan, problems: Problems) -> None:
    """Gas or a dose that nobody means is an error, whatever else is right."""
    for against in (*routes_to_gas(plan), *doses(plan)):
        words = told(against.words, us=plan.us).removesuffix(".")
        words = words[:1].lower() + words[1:]
        if against.severity is Severity.ERROR:
            problems.error(against.place, words, safety=True)
        else:
            problems.warning(against.place, words)
    _check_bitterness(plan, problems)
    wanted, packaging = plan.recipe.carbonation, plan.figures.packaging
    if wanted is None or packaging is None:
        if not plan.recipe.still:
            problems.warning(plan.recipe.place, UNGASSED, expected=GASSED)
        return
    if wanted.unsaid:
        sugars = priming_sugars(packaging, plan.figures.volumes.packaged)
        primed = " or ".join(f"{spoken(grams, 'g', us=plan.us)} of {name}" for name, grams in sugars)
        kegs = [(cold, bar) for cold, bar in packaging.keg_pressures if bar.number > 0]
        pressed = [[spoken(it.number, it.unit, us=plan.us) for it in row] for row in kegs[:1]]
        keg = "".join(f", or {bar} in a keg at {cold}" for cold, bar in pressed)
        gas = f"{wanted.volumes.number:g} volumes"
        problems.warning(
            wanted.place,
            f"nothing says where the gas comes from: {primed} makes it{keg}, and the first is taken",
            expected=f"{gas}, primed with table sugar, or {gas}, keg",
        )
    held = packaging.residual.number + (packaging.fruit_gas.number if packaging.fruit_gas else 0.0)
    if packaging.sugar is not None and held >= packaging.volumes.number:
        fruit = ", with what its fruit makes," if packaging.fruit_gas else ""
        problems.error(
            wanted.place,
            f"the beer still holds{fruit} {held:.2g} volumes, which is as much as it should",
            expected="more gas, or no priming",
            safety=True,
        )
