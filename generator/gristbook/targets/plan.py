"""The plans of a book: every recipe worked out in its brewhouse, and what only the figures can show to be wrong."""

from __future__ import annotations

from gristbook.model.book import Book
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.recipe import Expectation, Recipe
from gristbook.problems import Problems, Severity, nearest
from gristbook.refusal import Refusal
from gristbook.targets.advice import Advice, advise
from gristbook.targets.advice_rows import ROWS
from gristbook.targets.cautions import carbonation_verdict
from gristbook.targets.chain import work_out
from gristbook.targets.conventions import USABLE
from gristbook.targets.cost import cost_of
from gristbook.targets.doses import doses
from gristbook.targets.figures import Plan
from gristbook.targets.misfits import misfits
from gristbook.worksheet import Value, apply


def plan_book(book: Book, problems: Problems) -> tuple[Plan, ...]:
    """The plan of every recipe that can be brewed; the others have filed their problems."""
    plans = (plan_recipe(recipe, book, problems) for recipe in book.recipes)
    return tuple(plan for plan in plans if plan is not None)


def plan_recipe(recipe: Recipe, book: Book, problems: Problems) -> Plan | None:
    """One recipe in its own brewhouse, or `None` with a problem filed where it cannot be brewed."""
    brewhouse = book.brewhouses[recipe.brewhouse]
    before = len(problems.errors(recipe.place.path))
    try:
        figures = work_out(recipe, brewhouse, book.bitterness_model, book.colour_model, apply)
    except Refusal as refusal:
        problems.error(recipe.place, f"this cannot be brewed as written: {refusal}")
        return None
    cost = cost_of(recipe, figures, book.prices)
    plan = Plan(recipe, brewhouse, book.bitterness_model, book.colour_model, figures, cost)
    for expectation in recipe.expectations:
        _check_expectation(expectation, plan, problems)
    faults(plan, problems)
    _check_advice(plan, problems)
    return plan if len(problems.errors(recipe.place.path)) == before else None


def faults(plan: Plan, problems: Problems) -> None:
    """What a plan's vessels and bottles cannot hold."""
    _check_kettle(plan, plan.brewhouse, problems)
    _check_tun(plan, plan.brewhouse, problems)
    _check_gas(plan, problems)
    for what in misfits(plan):
        problems.error(plan.recipe.place, what)
    _check_doses(plan, problems)


def _check_expectation(expectation: Expectation, plan: Plan, problems: Problems) -> None:
    """The author's own test of the recipe."""
    value = plan.named.get(expectation.figure)
    if value is None:
        problems.error(
            expectation.place,
            f'no figure is called "{expectation.figure}"',
            suggestion=nearest(expectation.figure, plan.named),
        )
        return
    factor = _factor(expectation.base, value.unit)
    if factor is None:
        problems.error(expectation.place, f"{expectation.figure} is not in this unit", expected=value.unit)
    elif abs(value.number - expectation.number * factor) > expectation.tolerance * factor + 1e-9:
        problems.error(
            expectation.place,
            f"{expectation.figure} has drifted to {value.number:.4g}",
            expected=f"{expectation.number * factor:.4g} ± {expectation.tolerance * factor:.2g}",
        )


def _factor(base: str, unit: str) -> float | None:
    """What turns an expectation's base into the figure's unit; `None` where the two do not go together."""
    if base in ("", unit):
        return 1.0
    return {("fraction", "%"): 100.0, ("kg", "g"): 1000.0}.get((base, unit))


def _check_advice(plan: Plan, problems: Problems) -> None:
    """Advice that the author does not say is meant is a warning; an intention has to answer to some advice."""
    given = advise(plan, ROWS)
    for advice in given:
        if not advice.meant:
            problems.warning(
                plan.recipe.place,
                f"{advice.words} {_usually(advice)}",
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


def _usually(advice: Advice) -> str:
    """A figure and its usual span, as short as an author needs them."""

    def short(value: Value) -> str:
        number = 100 * value.number if value.unit == "fraction" else value.number
        unit = {"fraction": " %", "SG": "", "ratio": ""}.get(value.unit, f" {value.unit}")
        return f"{number:.4g}{unit}"

    spans = [f"from {short(advice.low)}"] if advice.low else []
    spans += [f"to {short(advice.high)}"] if advice.high else []
    return f"{short(advice.figure)}, usually {' '.join(spans) or 'none'}"


def _check_kettle(plan: Plan, brewhouse: Brewhouse, problems: Problems) -> None:
    volumes = plan.figures.volumes
    _check_room("the hot wort", volumes.boil_hot, brewhouse.kettle, USABLE, "kettle", plan, problems)


def _check_tun(plan: Plan, brewhouse: Brewhouse, problems: Problems) -> None:
    """A bag is mashed in the kettle; a tun has to hold its mash to the brim."""
    if plan.figures.mash is None:
        return
    if brewhouse.mash == "bag":
        _check_room("the mash", plan.figures.mash.volume, brewhouse.kettle, 1.0, "kettle", plan, problems)
    else:
        _check_room("the mash", plan.figures.mash.volume, brewhouse.tun, 1.0, "mash tun", plan, problems)


def _check_room(
    what: str, volume: Value, vessel: Value | None, usable: float, name: str, plan: Plan, problems: Problems
) -> None:
    if vessel is not None and volume.number > usable * vessel.number + 1e-9:
        share = f", of which {usable:.0%} may be filled" if usable < 1 else ""
        problems.error(
            plan.recipe.place,
            f"{what} takes {volume.number:.1f} L",
            expected=f"no more than the {name} of {vessel.number:.3g} L holds{share}",
        )


def _check_doses(plan: Plan, problems: Problems) -> None:
    """A dose that nobody means is an error, whatever else is right."""
    for against in doses(plan):
        file = problems.error if against.severity is Severity.ERROR else problems.warning
        file(against.place, against.said)


def _check_gas(plan: Plan, problems: Problems) -> None:
    wanted, packaging = plan.recipe.carbonation, plan.figures.packaging
    if wanted is None or packaging is None:
        return
    severity, words = carbonation_verdict(wanted.volumes.number, wanted.sugar is None)
    if severity is Severity.ERROR:
        problems.error(wanted.place, words)
    elif severity is Severity.WARNING:
        problems.warning(wanted.place, words)
    if packaging.sugar is not None and packaging.residual.number >= wanted.volumes.number:
        problems.error(
            wanted.place,
            f"the beer still holds {packaging.residual.number:.2g} volumes, which is as much as it should",
            expected="more gas, or no priming",
        )
