"""The method of the demo book as a beginner meets it: whole sentences, everything in it, in order, no water lost."""

import re
from itertools import pairwise

import pytest
import the_demo

from gristbook.pantry.pantry import Pantry
from gristbook.sheet.value import Value
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import spoken
from gristbook.targets.method.whole import Step, steps


@pytest.fixture(scope="module")
def demo() -> tuple[Plan, ...]:
    return tuple(the_demo.plans().values())


def kinds(method: tuple[Step, ...]) -> list[str]:
    return [step.kind for step in method]


def words(step: Step) -> str:
    """A step as text, each value as its number and unit."""
    shown = (f"{part.number:g} {part.unit}" if isinstance(part, Value) else part for s in step.sentences for part in s)
    return "".join(shown)


def values(step: Step, unit: str) -> list[float]:
    return [part.number for s in step.sentences for part in s if isinstance(part, Value) and part.unit == unit]


def the(method: tuple[Step, ...], kind: str) -> Step:
    (step,) = (step for step in method if step.kind == kind)
    return step


def balance(water_l: float, tun_l: float, grain_kg: float, added_l: float, start_c: float, added_c: float) -> float:
    """Where a mash comes to rest, by a balance of heat; grain takes 0.41 of what water takes (Palmer, metric)."""
    body = water_l + tun_l + 0.41 * grain_kg
    return (body * start_c + added_l * added_c) / (body + added_l)


def test_every_sentence_is_whole(demo: tuple[Plan, ...]) -> None:
    for plan in demo:
        for step in steps(plan):
            assert step.title[0].isupper()
            assert 1 <= len(step.sentences) <= 4, step
            for sentence in step.sentences:
                first, last = sentence[0], sentence[-1]
                assert isinstance(last, str)
                assert last.endswith(".")
                assert isinstance(first, Value) or first[0].isupper(), sentence
                text = "".join(part if isinstance(part, str) else "1" for part in sentence)
                assert not re.search(r"  |\s[.,;]|\.\.|[{}]|None", text), text


def test_no_sentence_writes_a_number_itself(demo: tuple[Plan, ...]) -> None:
    for plan in demo:
        recipe = plan.recipe
        known = [*(malt.name for malt in recipe.malts), *(extra.written for extra in recipe.extras)]
        known += [acid.name for acid in recipe.water.acids]
        for step in steps(plan):
            for part in (part for sentence in step.sentences for part in sentence if isinstance(part, str)):
                rest = part
                for name in known:
                    rest = rest.replace(spoken(name), "").replace(name or "-", "")
                assert not re.search(r"\d", rest), part


def test_the_waters_of_the_steps_are_all_the_water_of_the_plan(demo: tuple[Plan, ...]) -> None:
    for plan in demo:
        poured = sum(
            values(step, "L")[0]
            for step in steps(plan)
            if step.kind in ("steep", "heat", "infuse", "top-up") and values(step, "L")
        )
        assert poured == pytest.approx(plan.figures.water.total.number, abs=1e-9), plan.recipe.slug


def test_every_addition_of_a_recipe_is_in_its_method(demo: tuple[Plan, ...]) -> None:
    for plan in demo:
        method = steps(plan)
        poured = [part for step in method for s in step.sentences for part in s if isinstance(part, Value)]
        figures = plan.figures
        for amount in (
            *(line.mass for line in figures.grist.malts),
            *(line.mass for line in figures.grist.sugars),
            *(line.mass for line in figures.bitterness.hops),
            *(line.amount for line in (figures.pitch.yeasts if figures.pitch else ())),
        ):
            assert any(part is amount for part in poured), (plan.recipe.slug, amount.label)
        for extra in plan.recipe.extras:
            assert any(spoken(extra.name) in words(step) for step in method), (plan.recipe.slug, extra.name)


def test_cooled_wort_and_beer_are_never_touched_before_a_sanitiser(demo: tuple[Plan, ...]) -> None:
    touched = {"cool", "feed", "dry-hop", "finished", "keg"}
    for plan in demo:
        told = kinds(steps(plan))
        for before, kind in pairwise(told):
            assert kind not in touched or before == "sanitise", plan.recipe.slug
        assert told[told.index("prime") - 1] == "sanitise"


def test_the_brew_goes_from_scales_to_glass(demo: tuple[Plan, ...]) -> None:
    order = [*("weigh", "clean", "water", "boil", "flameout", "cool", "read", "pitch", "ferment"), "finished", "bottle"]
    for plan in demo:
        told = kinds(steps(plan))
        places = [told.index(kind) for kind in (*order, "keep", "serve")]
        assert places == sorted(places)


def test_the_boil_is_counted_back_from_its_end(demo: tuple[Plan, ...]) -> None:
    for plan in demo:
        told = steps(plan)
        boil = told[kinds(told).index("boil") + 1 : kinds(told).index("flameout")]
        minutes = [next(iter(values(step, "min")), 0.0) for step in boil]  # as the heat goes off, no minute is named
        assert minutes == sorted(minutes, reverse=True)
        additions = [minute for minute, step in zip(minutes, boil, strict=True) if step.kind != "coil"]
        assert len(additions) == len(set(additions)), "what goes in at one minute stands together"


def test_boiling_water_lifts_the_mash_to_its_next_rest(demo: tuple[Plan, ...]) -> None:
    (plan,) = (plan for plan in demo if plan.recipe.slug == "damsel-wheat")
    method = steps(plan)
    strike, added = values(the(method, "mash"), "°C"), values(the(method, "infuse"), "L")[0]
    first = values(method[kinds(method).index("heat")], "L")[0]
    # At 60 m water boils at 99.8 °C (the standard atmosphere; a tenth of a degree less for every 30 m or so).
    assert balance(first, 1.2, 4.7, added, strike[0], 99.8) == pytest.approx(67, abs=0.05)


def test_a_yeast_that_may_eat_on_is_read_a_week_apart(demo: tuple[Plan, ...]) -> None:
    apart = {
        plan.recipe.slug: values(next(step for step in steps(plan) if step.kind == "finished"), "d")[0] for plan in demo
    }
    assert apart.pop("haymeadow-saison") == 7
    assert set(apart.values()) == {3}


def test_a_lager_is_only_chilled_once_it_stands_still(demo: tuple[Plan, ...]) -> None:
    """Two readings, with the number that is expected and a sanitiser, before the cold; and a look before packaging."""
    (plan,) = (plan for plan in demo if plan.recipe.slug == "tailrace-pils")
    told = [step for step in steps(plan) if step.kind in ("ferment", "finished", "sanitise", "bottle")]
    told = told[[step.kind for step in told].index("ferment") :]
    assert [step.title for step in told] == [
        *("Ferment", "Let it cool", "Let it warm", "Sanitise", "Be sure that it has finished", "Keep it cold"),
        *("Sanitise", "Look once more before you package it", "Sanitise", "Bottle it"),
    ]
    final = plan.figures.fermentation.final
    assert "another 3 d later, before you cool the beer: in the cold any two agree" in words(told[4])
    assert values(told[4], "SG") == values(told[7], "SG") == [final.number]


def test_no_beer_is_cooled_or_packaged_before_two_readings(demo: tuple[Plan, ...]) -> None:
    for plan in demo:
        told = steps(plan)
        cold = [at for at, step in enumerate(told) if step.title == "Keep it cold"]
        closed = min(at for at, step in enumerate(told) if step.kind in ("prime", "bottle", "keg"))
        finished = [at for at, step in enumerate(told) if step.kind == "finished"]
        assert len(finished) == 1 + bool(cold)
        assert all(max(finished) > at > min(finished) for at in cold)
        assert max(finished) < closed


PROPER = {
    *("American", "Belgian", "California", "Czech", "English", "German", "Irish", "Kölsch", "Scottish"),
    *("Brettanomyces", "Munich", "Pilsner", "Lactobacillus", "PVPP", "Vienna"),
}


def test_a_name_of_the_pantry_keeps_its_capital_only_where_it_is_a_proper_noun(pantry: Pantry) -> None:
    shelves = (pantry.malts, pantry.sugars, pantry.extracts, pantry.finings, pantry.yeasts)
    shown = [spoken(record.name) for shelf in shelves for record in shelf.records]
    assert len(shown) > 100
    capitals = {word for name in shown for word in name.split() if word[0].isupper() and len(word) > 1}
    assert capitals == PROPER
