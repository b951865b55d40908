"""What a recipe may leave to its water, its sugar or its vessel, held to sums by hand; and the words that it chose."""

from collections.abc import Callable
from typing import Any

import pytest

from gristbook.targets.figures import Plan
from gristbook.targets.method.whole import steps

BEER = {
    "title": "A beer",
    "batch": "20 L",
    "malts": "\n  - 4.5 kg pale ale malt",
    "hops": "\n  - 28 g Fuggle, 4.5 % alpha, 60 min",
    "yeast": "\n  - 11 g american ale yeast, clean, dried",
    "mash": "67 °C, 60 min",
    "ferment": "19 °C, 10 days",
    "carbonation": "2.2 volumes, primed with table sugar",
}


@pytest.fixture
def plan(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    def build(**said: str) -> Plan:
        lines = [f"{key}: {value}" for key, value in {**BEER, **said}.items()]
        outcome = plan_of("\n".join(["---", *lines, "---", ""]))
        assert outcome.plan is not None, [str(it) for it in outcome.problems]
        return outcome.plan  # type: ignore[no-any-return]

    return build


def told(plan: Plan) -> str:
    """The whole method in plain words."""
    found = [(step.title, *(part for words in step.sentences for part in words)) for step in steps(plan)]
    parts = (part if isinstance(part, str) else f"{part.number:.3g} {part.unit}" for it in found for part in it)
    return " ".join(" ".join(parts).split())


def test_a_rest_follows_from_its_strike_water(plan: Callable[..., Plan]) -> None:
    """By hand: 4.5 kg at 20 °C take up the heat of 0.41 × 4.5 = 1.845 L; 2.7 L/kg are 12.15 L of water at 76 °C."""
    found = plan(mash="strike at 76 °C, 60 min")
    by_hand = (20 * 1.845 + 76 * 12.15) / (1.845 + 12.15)
    assert found.recipe.mash[0].temperature.number == pytest.approx(by_hand, abs=0.01)
    assert found.figures.mash is not None
    assert found.figures.mash.strike.number == pytest.approx(76, abs=0.001)
    other = plan(mash=f"{by_hand:.4f} °C, 60 min")
    assert found.figures.fermentation.final.number == pytest.approx(other.figures.fermentation.final.number, abs=1e-5)


def test_a_later_rest_follows_from_its_infusion(plan: Callable[..., Plan]) -> None:
    """By hand: 1.845 + 12.15 L at 62 °C, and 4 L at 95 °C."""
    found = plan(mash="\n  - 62 °C, 30 min\n  - infusion 4 L at 95 °C, 30 min")
    assert found.recipe.mash[1].temperature.number == pytest.approx((62 * 13.995 + 95 * 4) / 17.995, abs=0.01)


def test_less_hot_water_is_more_of_it(plan: Callable[..., Plan]) -> None:
    """By hand: (1.845 + 12.15) × (72 − 62) / (90 − 72) = 7.775 L of water at 90 °C."""
    found = plan(mash="\n  - 62 °C, 30 min\n  - 72 °C, 30 min, infusion with water at 90 °C").figures.mash
    assert found is not None
    assert found.rests[1].infusion is not None
    assert found.rests[1].infusion.number == pytest.approx(7.775, abs=0.001)


def test_four_ounces_of_corn_sugar_make_so_much_gas(plan: Callable[..., Plan]) -> None:
    """By hand: 113.398 g of C6H12O6·H2O (198.17 g/mol) give 2 × 44.009 / 198.17 = 0.44415 of gas, in 19 L of beer.

    0.905 volumes are left at 19 °C: between 0.93 at 18 and 0.88 at 20 in the table of Hibberd.
    """
    found = plan(carbonation="primed with 4 oz corn sugar").figures
    assert found.packaging is not None
    assert found.packaging.sugar is not None
    assert found.packaging.sugar.number == pytest.approx(113.398, abs=0.001)
    beer = found.volumes.packaged.number
    by_hand = 0.905 + 113.398 * 0.44415 / (beer * 1.9768)
    assert found.packaging.volumes.number == pytest.approx(by_hand, abs=0.001)


def test_grams_to_a_litre_are_grams_to_a_litre(plan: Callable[..., Plan]) -> None:
    """By hand: 0.905 + 6 × 4 × 44.009 / 342.297 / 1.9768 = 2.466 volumes."""
    found = plan(carbonation="primed with table sugar, 6 g/L").figures.packaging
    assert found is not None
    assert found.volumes.number == pytest.approx(2.466, abs=0.001)


def test_drops_are_so_much_sugar_in_a_bottle(plan: Callable[..., Plan]) -> None:
    """By hand: 3 g in 0.5 L are 6 g/L."""
    found = plan(carbonation="primed with carbonation drops of 3 g, 1 per 500 mL bottle")
    assert found.figures.packaging is not None
    assert found.figures.packaging.volumes.number == pytest.approx(2.466, abs=0.001)
    assert "1 pieces of carbonation drops into each bottle of 0.5 L" in told(found)


def test_grams_of_gas_are_volumes(plan: Callable[..., Plan]) -> None:
    """By hand: 5 / 1.9768 = 2.529."""
    found = plan(carbonation="5 g/L CO2, keg").figures.packaging
    assert found is not None
    assert found.volumes.number == pytest.approx(2.529, abs=0.001)


def test_beer_that_fermented_under_pressure_holds_more_gas_and_wants_less_sugar(plan: Callable[..., Plan]) -> None:
    """By Henry's law, by hand: 0.905 × (0.5 + 1.01325) / 1.01325 = 1.3516 volumes."""
    open_to_air = plan().figures.packaging
    found = plan(ferment="19 °C, 10 days, under pressure 0.5 bar")
    under = found.figures.packaging
    assert under is not None
    assert open_to_air is not None
    assert open_to_air.residual.number == pytest.approx(0.905, abs=0.0005)
    assert under.residual.number == pytest.approx(1.3516, abs=0.0005)
    assert under.sugar is not None
    assert open_to_air.sugar is not None
    share = (2.2 - 1.3516) / (2.2 - 0.905)
    assert under.sugar.number / open_to_air.sugar.number == pytest.approx(share, abs=0.001)
    assert "set the valve to 0.5 bar" in told(found)


@pytest.mark.parametrize(
    "steps_of_it",
    [
        "19 °C, 7 days\n  - 18 °C, 3 days, under pressure 0.5 bar",
        "18 °C, 7 days, under pressure 0.5 bar\n  - 19 °C, 3 days",
    ],
)
def test_gas_that_was_held_at_any_step_is_still_there(plan: Callable[..., Plan], steps_of_it: str) -> None:
    """The warmest step has no pressure of its own; by hand as above, or bottles would be primed as if it had gone."""
    found = plan(ferment=f"\n  - {steps_of_it}").figures.packaging
    assert found is not None
    assert found.residual.number == pytest.approx(1.3516, abs=0.0005)


def test_gas_goes_by_the_warmest_end_of_a_span(plan: Callable[..., Plan]) -> None:
    """0.88 volumes at 20 °C in the table of Hibberd, 0.83 at 22."""
    spans = {"18 to 20 °C, 10 days": 0.88, "18 °C, 4 days, then ramp to 22 °C over 6 days": 0.83}
    for ferment, residual in spans.items():
        found = plan(ferment=ferment).figures.packaging
        assert found is not None
        assert found.residual.number == pytest.approx(residual, abs=0.0005)


def test_a_mash_out_does_not_change_how_far_it_ferments(plan: Callable[..., Plan]) -> None:
    rest = "\n  - sacch rest at 65 °C for 30 min\n  - mash out 76 °C, 40 min"
    found, alone = plan(mash=rest), plan(mash="65 °C, 30 min")
    assert found.figures.fermentation.real_attenuation.number == pytest.approx(
        alone.figures.fermentation.real_attenuation.number, abs=1e-9
    )


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ({"mash": "\n  - protein rest 52 °C, 15 min\n  - 67 °C, 60 min\n  - mash out, 76 °C, 10 min"}, "Protein rest"),
        ({"mash": "\n  - 67 °C, 60 min\n  - mash out, 76 °C, 10 min"}, "Mash out"),
        ({"mash": "\n  - 67 °C, 60 min\n  - fly sparge at 75 °C"}, "Fly sparge"),
        ({"mash": "\n  - 67 °C, 60 min\n  - fly sparge at 75 °C"}, "of the water to 75 °C"),
        (
            {"ferment": "\n  - 19 °C, 10 days\n  - secondary on the cherries 3 weeks at 18 °C"},
            "Secondary on the cherries",
        ),
        ({"ferment": "\n  - 19 °C, 10 days\n  - cold crash to 2 °C, 2 days"}, "Cold crash"),
        ({"ferment": "\n  - pitch at 17 °C\n  - free rise to 21 °C, 10 days"}, "With the wort at 17 °C"),
        ({"ferment": "\n  - pitch at 17 °C\n  - free rise to 21 °C, 10 days"}, "warm by itself from 17 °C to 21 °C"),
        ({"carbonation": "cask, 1.4 volumes, primed with table sugar"}, "Fill the cask"),
        ({"carbonation": "still"}, "It is to be still"),
        ({"boil": "none", "hops": ""}, "do not boil it"),
    ],
)
def test_the_method_speaks_in_the_recipes_own_words(
    said: dict[str, str], words: str, plan: Callable[..., Plan]
) -> None:
    assert words in told(plan(**said))
    assert "start the clock" not in told(plan(boil="none", hops=""))
