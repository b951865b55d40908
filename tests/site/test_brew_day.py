"""What a brewer looks up on the day stands with the figures, as the plan has it, and leads to its working."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import pytest
from bs4 import BeautifulSoup, Tag

from gristbook.sheet.value import Value
from gristbook.site.amounts import bare
from gristbook.site.beer.mashing import WORK, enzymes_in_words
from gristbook.site.beer.recipe_page import OF_THE_WATER
from gristbook.site.words import ready_words
from gristbook.targets.advice.judgement import AT_ONCE, judgement


def numbers(part: Tag) -> list[str]:
    """What a machine reads of all figures in a part of a page."""
    return [str(figure["value"]) for figure in part.select(".figure[value], .figure data")]


def words(part: Tag) -> str:
    return " ".join(part.get_text(" ").replace("\xa0", " ").split())


def section(page: BeautifulSoup, name: str) -> Tag:
    """A part of a page, from its heading to the next of its kind or a higher one."""
    heading = page.find(id=name)
    if heading.name == "h2":
        return heading.find_parent("section")
    found = BeautifulSoup("<div></div>", "html.parser").div
    for part in list(heading.find_next_siblings()):
        if part.name in ("h2", "h3"):
            break
        found.append(BeautifulSoup(str(part), "html.parser"))
    return found


def are_in(values: Iterable[Value | None], part: Tag) -> None:
    there = numbers(part)
    for value in values:
        assert value is None or bare(value.number) in there, value


def test_each_rest_says_how_it_is_reached_and_which_enzymes_work(demo) -> None:  # type: ignore[no-untyped-def]
    for plan in demo.plans:
        page, mash = demo.pages[f"{plan.recipe.slug}/figures.html"], plan.figures.mash
        if mash is None:
            assert page.find(id="mash") is None
            continue
        rows = page.select("#table-mash tbody tr")
        assert len(rows) == len(mash.rests)
        are_in((mash.water, mash.strike), rows[0])
        for row, rest in zip(rows, mash.rests, strict=True):
            are_in((rest.step.temperature, rest.step.minutes, rest.infusion, rest.decoction), row)
            assert all(enzyme in words(row) for enzyme in rest.enzymes)
            assert any(enzyme in words(row) for enzyme in WORK)
        sparged = (mash.first_runnings, mash.first_plato) if mash.sparge is not None else ()
        are_in((mash.thickness, mash.volume, mash.absorbed, mash.lauter, *sparged), section(page, "mash"))


@pytest.mark.parametrize("temperature_c", [20.0, 34.9, 44.0, 54.5, 62.0, 67.2, 67.9, 75.1, 90.0])
def test_no_temperature_is_without_words_on_enzymes(temperature_c: float) -> None:
    assert all(name and work for name, work in enzymes_in_words(temperature_c))


def test_between_two_enzymes_both_are_named() -> None:
    """Palmer has alpha-amylase from 68 °C, the encyclopaedia beta-amylase to 67 °C: at 67.2 °C both work on."""
    assert [name.split(",")[0] for name, _ in enzymes_in_words(67.2)] == ["beta-amylase", "alpha-amylase"]


def test_liquid_yeast_has_its_starters_and_dried_yeast_none(demo) -> None:  # type: ignore[no-untyped-def]
    for plan in demo.plans:
        page, pitch = demo.pages[f"{plan.recipe.slug}/figures.html"], plan.figures.pitch
        if not pitch.starters:
            assert page.find(id="starter") is None
            continue
        rows = section(page, "starter").select("tbody tr")
        assert len(rows) == len(pitch.starters) == 3
        for row, starter in zip(rows, pitch.starters, strict=True):
            are_in((starter.volume, starter.extract, starter.standing, starter.stirred), row)
            enough = "not enough" not in words(row)
            assert enough == (starter.stirred.number >= pitch.cells.number)


def test_strength_stands_after_every_model_by_author_and_year(demo) -> None:  # type: ignore[no-untyped-def]
    for plan in demo.plans:
        rows = demo.pages[f"{plan.recipe.slug}/figures.html"].select("#table-strength tbody tr")
        found = {words(row.th).lower(): numbers(row) for row in rows}
        assert len(found) == len(plan.figures.fermentation.strengths)
        for name, value in plan.figures.fermentation.strengths:
            assert [put for said, put in found.items() if said.startswith(name)] == [[bare(value.number)]]
        years = [said.split()[1][:4] for said in found]
        assert years == sorted(years)


def test_energy_and_the_mashs_ph_stand_after_others_too(demo) -> None:  # type: ignore[no-untyped-def]
    for plan in demo.plans:
        page, chemistry = demo.pages[f"{plan.recipe.slug}/figures.html"], plan.figures.chemistry
        acidities = chemistry.mash_ph_models if chemistry is not None else ()
        for anchor, found in (("table-energy", plan.figures.serving.models), ("table-ph", acidities)):
            shown = [numbers(row) for row in page.select(f"#{anchor} tbody tr")]
            assert sorted(shown) == sorted([bare(value.number)] for _, value in found)


def test_haste_is_warned_of_with_its_own_figures_and_only_in_bottles(demo) -> None:  # type: ignore[no-untyped-def]
    for plan in demo.plans:
        packaging = plan.figures.packaging
        part = section(demo.pages[f"{plan.recipe.slug}/figures.html"], "bottling")
        caution = part.find(class_="caution")
        assert (caution is not None) == (packaging.sugar is not None)
        if caution is not None:
            are_in((packaging.gas_if_unfinished, packaging.pressure_if_unfinished), caution)
            assert "burst" in words(caution)
            are_in((count for _, count in packaging.bottles), part)
        are_in((pressure for _, pressure in packaging.keg_pressures), part)
        are_in((plan.figures.serving.kilocalories, plan.figures.serving.carbohydrate), part)


def test_instruments_and_topping_up_are_told(demo) -> None:  # type: ignore[no-untyped-def]
    topped_up = 0
    for plan in demo.plans:
        page, readings, cooling = (
            demo.pages[f"{plan.recipe.slug}/figures.html"],
            plan.figures.readings,
            plan.figures.cooling,
        )
        shown = (readings.refractometer_before, readings.refractometer_after)
        are_in((*shown, *(reading for _, reading in readings.hydrometer)), section(page, "instruments"))
        assert (page.find(id="topping-up") is not None) == (cooling is not None)
        if cooling is not None:
            are_in((cooling.cold, cooling.if_boiling, cooling.cool_to), section(page, "topping-up"))
            topped_up += 1
    assert topped_up


def test_the_extract_of_the_lines_makes_up_what_is_in_the_kettle(demo) -> None:  # type: ignore[no-untyped-def]
    for plan in demo.plans:
        part = section(demo.pages[f"{plan.recipe.slug}/figures.html"], "extract")
        lines, sums = part.find_all("tbody")
        in_all, in_fermenter, *_ = (float(number) for number in numbers(sums))
        assert sum(float(number) for number in numbers(lines)) == pytest.approx(in_all, rel=1e-6)
        assert in_fermenter < in_all


def test_advice_is_told_with_its_reason_and_an_author_s_own(demo) -> None:  # type: ignore[no-untyped-def]
    meant = 0
    for plan in demo.plans:
        page = demo.pages[f"{plan.recipe.slug}.html"]
        advice = [it for it in judgement(plan) if it.meant or it.key not in OF_THE_WATER]
        shown, why = (page.select(f"[aria-labelledby=advice] > {part}") for part in ("ul > li", "details > ul > li"))
        assert len(shown) == len(why) == len(advice) <= AT_ONCE, "no beer of the demo is that odd"
        for remark, reason, said in zip(shown, why, advice, strict=True):
            are_in((said.figure, said.low, said.high), remark)
            assert not remark.select("data.figure"), "each of its numbers leads to where it is from"
            for it in (remark, reason):
                assert said.words.removesuffix(".").replace("'", "’") in words(it)
            for part in (said.reason, said.standing):
                assert part.replace("'", "’") in words(reason)
            assert (remark.q is not None) == bool(said.meant)
            meant += bool(said.meant)
    assert meant >= 2, "the demo has beers that their author means so"


def test_a_wait_is_said_in_weeks_and_a_long_one_in_months() -> None:
    days = (7, 10, 14, 24, 28, 57, 90, 140, 365)
    said = [ready_words(number) for number in days]
    assert said == [
        *("one week", "one and a half weeks", "two weeks", "three and a half weeks", "four weeks", "eight weeks"),
        *("three months", "five months", "twelve months"),
    ]
    assert all(one != other for one, other in pairwise(said))
