"""What stands in for a line of a beer: its weight by what others say, and its effect by planning the beer anew."""

from __future__ import annotations

from dataclasses import replace

import pytest
import the_demo

from gristbook.model.amount import Weight
from gristbook.model.larder import Ingredient
from gristbook.model.recipe import Malt, Sugar
from gristbook.sheet.value import Value, given
from gristbook.targets.buying.instead import Instead, hop_ratio, of_grist, of_hops, weights
from gristbook.targets.chain import work_out
from gristbook.targets.figures import Plan
from gristbook.targets.results import Figures, HopFigures
from gristbook.targets.wort.grist import by_shares

LARDER = the_demo.book().larder
BY_NAME = {(it.shelf, it.name): it for it in LARDER}

SAID = [
    # What a teacher would take, from memory, in simple fractions, which may be a seventh off.
    ("malts", "Munich malt, dark", "Melanoidin malt", 2 / 5, "colour"),
    ("malts", "Munich malt, light", "Aromatic malt", 1 / 3, "colour"),
    ("malts", "Aromatic malt", "Melanoidin malt", 3 / 4, "colour"),
    ("malts", "Biscuit malt", "Amber malt", 4 / 5, "colour"),
    ("malts", "Amber malt", "Brown malt", 1 / 2, "colour"),
    ("malts", "Brown malt", "Pale chocolate malt", 1 / 4, "colour"),
    ("malts", "Caramel malt 40 L", "Caramel malt 60 L", 2 / 3, "colour"),
    ("malts", "Caramel malt 80 L", "Caramel malt 60 L", 4 / 3, "colour"),
    ("malts", "Chocolate malt", "Pale chocolate malt", 9 / 5, "colour"),
    ("malts", "Roasted barley", "Black malt", 9 / 10, "colour"),
    ("malts", "Flaked oats", "Oat malt", 1.1, "extract"),
    ("sugars", "Sucrose", "Glucose monohydrate", 1.1, "extract"),
    ("sugars", "Sucrose", "Invert sugar syrup, pale", 1.25, "extract"),
    ("extracts", "Dried malt extract, light", "Liquid malt extract, light", 1.2, "extract"),
    ("extracts", "Liquid malt extract, light", "Dried malt extract, light", 0.83, "extract"),
    ("hops", "East Kent Golding", "First Gold", 1 / 1.6, "bitterness"),
]


@pytest.mark.parametrize(("shelf", "name", "other", "times", "same"), SAID)
def test_as_much_is_taken_as_a_teacher_would_take(shelf: str, name: str, other: str, times: float, same: str) -> None:
    said = weights(BY_NAME[shelf, name], BY_NAME[shelf, other])
    assert said.index(f" for the same {same}") > 0
    found = said[said.index(f" for the same {same}") - 1]
    assert isinstance(found, Value)
    assert found.number == pytest.approx(100 * times, rel=1 / 7)


@pytest.mark.parametrize(
    ("name", "other", "times"), [("Cascade", "Centennial", 2 / 3), ("Centennial", "Cascade", 3 / 2)]
)
def test_late_hops_go_by_their_oil(name: str, other: str, times: float) -> None:
    # Two thirds of Centennial for Cascade, and half as much again the other way: a teacher's words, from memory.
    ratio = hop_ratio(BY_NAME["hops", name], BY_NAME["hops", other], 0.0, late=True)
    assert ratio == pytest.approx(times, rel=0.05)


def swapped(item: Malt | Sugar, other: Ingredient, mass: float) -> Malt | Sugar:
    amount, figures = Weight(given(mass, "kg", other.name, words="in its place")), other.figures
    new = {"name": other.name, "amount": amount, "extract_dry": figures["extract"], "moisture": figures["moisture"]}
    new["colour"] = figures["colour"]
    if isinstance(item, Malt):
        return replace(item, **new, kind=other.words["kind"])
    return replace(item, **new, attenuation=figures["attenuation" if item.from_malt else "fermentable"])


def anew(plan: Plan, place: int, it: Instead) -> Figures:
    """The whole plan with a line of the grist replaced."""
    grist, recipe = plan.figures.grist, plan.recipe
    lines = [(line.malt, line.mass.number) for line in grist.malts]
    items: list[tuple[Malt | Sugar, float]] = [*lines, *((line.sugar, line.mass.number) for line in grist.sugars)]
    if it.more:
        named = [n for n, (item, _) in enumerate(items) if item.name == it.base]
        base = max(named, key=lambda n: items[n][1])
        items[base] = items[base][0], items[base][1] + it.more
    shelf = "malts" if place < len(lines) else "extracts" if items[place][0].from_malt else "sugars"  # type: ignore[union-attr]
    made = [replace(item, amount=Weight(given(mass, "kg", item.name, words="as it is"))) for item, mass in items]
    made[place] = swapped(items[place][0], BY_NAME[shelf, it.name], it.mass.number)  # type: ignore[index]
    changed = replace(recipe, malts=tuple(made[: len(lines)]), sugars=tuple(made[len(lines) :]))
    return work_out(changed, plan.brewhouse, plan.bitterness_model, plan.colour_model)


@pytest.mark.parametrize("slug", the_demo.SLUGS)
def test_a_malt_or_sugar_that_stands_in_does_to_the_beer_what_is_said(slug: str) -> None:
    plan = the_demo.plans()[slug]
    if by_shares(plan.recipe):
        plan = replace(plan, recipe=replace(plan.recipe, original_gravity=None))
    before, tried = plan.figures, 0
    for place, offers in enumerate(of_grist(plan, LARDER)):
        for it in offers:
            after = anew(plan, place, it)
            changes = {words: (was.number, change) for words, was, change in it.changes}
            assert changes["colour"][0] == before.colour.srm.number
            assert sum(changes["colour"]) == pytest.approx(after.colour.srm.number, rel=0.03, abs=0.15), it
            assert after.wort.original.number == pytest.approx(before.wort.original.number, abs=0.0008), it
            final = before.fermentation.final.number + changes.get("final gravity", (0.0, 0.0))[1]
            assert after.fermentation.final.number == pytest.approx(final, abs=0.0006), it
            strength = before.fermentation.abv.number + changes.get("strength", (0.0, 0.0))[1]
            assert after.fermentation.abv.number == pytest.approx(strength, abs=0.1), it
            tried += 1
    assert tried


@pytest.mark.parametrize("slug", the_demo.SLUGS)
def test_a_hop_that_stands_in_does_to_the_bitterness_what_is_said(slug: str) -> None:
    plan = the_demo.plans()[slug]
    lines = plan.figures.bitterness.hops
    for place, offers in enumerate(of_hops(plan, LARDER)):
        for it in offers:
            other = BY_NAME["hops", it.name]
            hops = [replace(line.hop, amount=Weight(line.mass)) for line in lines]
            mine = replace(hops[place], name=it.name, amount=Weight(it.mass), alpha=other.figures["alpha"])
            hops[place] = replace(mine, store=None, storage_index=None)
            changed = replace(plan.recipe, hops=tuple(hops))
            after = work_out(changed, plan.brewhouse, plan.bitterness_model, plan.colour_model).bitterness.total.number
            ((_, was, change),) = it.changes
            assert was.number + change == pytest.approx(after, rel=0.02, abs=0.3), it


def test_smoke_acid_and_molasses_stand_alone() -> None:
    for shelf, name in (("malts", "Beech-smoked malt"), ("malts", "Acidulated malt"), ("sugars", "Molasses")):
        assert not BY_NAME[shelf, name].stand_ins  # type: ignore[index]


def test_a_hop_used_twice_in_one_way_has_its_others_once() -> None:
    plan = the_demo.plans()["great-spur"]
    found = {line.hop.use.minutes.number: len(it) for line, it in zip(*_hops(plan), strict=True)}  # type: ignore[union-attr]
    assert found == {60.0: 3, 15.0: 3, 5.0: 0}, "East Kent Golding goes in twice, and late both times"


def _hops(plan: Plan) -> tuple[tuple[HopFigures, ...], tuple[tuple[Instead, ...], ...]]:
    return plan.figures.bitterness.hops, of_hops(plan, LARDER)


@pytest.mark.parametrize(("name", "other", "grams"), [("Centennial", "Cascade", 150), ("Cascade", "Centennial", 67)])
def test_a_hops_own_page_says_what_is_taken_late_as_the_recipes_do(name: str, other: str, grams: float) -> None:
    said = weights(BY_NAME["hops", name], BY_NAME["hops", other])
    found = said[said.index(" late or dry") - 1]
    assert isinstance(found, Value)
    assert found.number == pytest.approx(grams, abs=0.5)
