"""Words that once meant another thing in capitals, or with another blank, mean what they say."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from gristbook.model.moment import BeforePackaging, BeforeTheEnd, Stage
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Place, Problems
from gristbook.reading.tree import Text
from gristbook.text.batch_lines import read_level, read_moment, read_packaged
from gristbook.text.brewhouse import default_brewhouse
from gristbook.text.editions import read_editions
from gristbook.text.log import read_log
from gristbook.text.values import Desk
from gristbook.text.writing import speaks_us

HERE = Place("a-file.md")

BREW = """---
title: A trial
batch: {batch}
malts:
  - 4 kg pale ale malt
hops:
  - 30 g Fuggle, 4.5 %, 60 min
finings and spices:
  - {line}
yeast:
  - 11 g irish ale yeast, dried
mash:
  - 67 °C, 60 min
ferment:
  - 18 °C, 10 days
carbonation: 2.2 volumes, keg
---
"""


@pytest.fixture
def extra(plan_of: Callable[..., Any]) -> Callable[[str], Any]:
    def read(line: str) -> Any:
        outcome = plan_of(BREW.format(batch="20 L", line=line))
        assert outcome.problems == ()
        return outcome.recipe.extras[0]

    return read


@pytest.mark.parametrize(
    "line", ["1/2 tsp irish moss, 10 Min", "½ TSP irish moss, 10MINUTES", "½ tsp irish moss, 600 S"]
)
def test_a_time_in_capitals_is_that_time_before_the_end(line: str, extra: Callable[[str], Any]) -> None:
    moment = extra(line).moment
    assert isinstance(moment, BeforeTheEnd)
    assert (moment.minutes.number, moment.minutes.unit) == (10.0, "min")


@pytest.mark.parametrize("line", ["2 pods vanilla, 3 Days", "2 Pods Of vanilla, 3 D", "2 PODS vanilla, Dry 72 H"])
def test_days_in_capitals_are_those_days_before_packaging(line: str, extra: Callable[[str], Any]) -> None:
    found = extra(line)
    assert found.name == "Vanilla pod"
    assert found.written == "2 pods"
    assert isinstance(found.moment, BeforePackaging)
    assert (found.moment.days.number, found.moment.days.unit) == (3.0, "d")


@pytest.mark.parametrize(
    ("words", "stage"),
    [
        ("In  The Mash", Stage.MASH),
        ("whole boil", Stage.KETTLE),
        ("INTO THE KETTLE", Stage.KETTLE),
        ("with the yeast", Stage.YEAST),
        ("Into Fermenter", Stage.FERMENTER),
        ("after  fermentation", Stage.FERMENTED),
        ("At Packaging", Stage.PACKAGING),
    ],
)
def test_a_stage_of_the_brew_is_one_however_it_is_put(words: str, stage: Stage, extra: Callable[[str], Any]) -> None:
    assert extra(f"3 g ginger, {words}").moment is stage


@pytest.mark.parametrize("amount", ["1 ½ tsp", "1½ tsp", "1 1/2 Tsp", "1 1\N{FRACTION SLASH}2 tsp", "1.5  TSP"])
def test_a_number_and_a_half_is_read_whole(amount: str, extra: Callable[[str], Any]) -> None:
    assert extra(f"{amount} irish moss, 10 min").amount.number == pytest.approx(1.5 * 0.00492892159375)


@pytest.mark.parametrize("batch", ["5 gal", "5 GAL", "5  Gallons", "5 us gal", "5 US Gallons", "20 QT"])
def test_a_batch_in_gallons_is_us_in_capitals_too(batch: str, plan_of: Callable[..., Any]) -> None:
    assert speaks_us(plan_of(BREW.format(batch=batch, line="5 g irish moss, 10 min")).recipe)
    edition = read_editions((Text(batch, HERE),), {"home": default_brewhouse()}, Problems())[0][0]
    assert edition.us


@pytest.mark.parametrize("batch", ["4.4 imp gal", "4.4 IMP  GAL", "20 L", "20 LITRES"])
def test_a_batch_in_imperial_gallons_is_not(batch: str, plan_of: Callable[..., Any]) -> None:
    assert not speaks_us(plan_of(BREW.format(batch=batch, line="5 g irish moss, 10 min")).recipe)


@pytest.mark.parametrize(
    "words", ["25.5 L at 60 °C, 1.036", "25.5 l AT 60 °c, 1.036", "25.5 L At 60 degrees  c AT 1.036"]
)
def test_hot_wort_in_a_small_c_is_not_a_hot_sample(words: str) -> None:
    problems = Problems()
    level = read_level(Text(words, HERE), "before the boil", None, problems)
    assert not len(problems)
    assert level is not None
    assert level.gravity is not None
    assert level.warmth is not None
    assert level.warmth.number == pytest.approx(60)
    assert level.gravity.sample is None, "nothing was said of the sample, which is read cool"


def test_a_batchs_own_words_are_read_in_any_case() -> None:
    problems = Problems()
    desk = Desk(Pantry.load(None, problems), problems)
    packed = read_packaged(Text("2026-03-28, 19 l, 95 G Table Sugar, In  Swing-Top  Bottles", HERE), desk)
    looked = read_moment(Text("2026-03-17t07:30, 1.018 AT 20 °c, 19 °c", HERE), problems)
    assert not len(problems)
    assert packed is not None
    assert packed.primer is not None
    assert (packed.vessel, packed.primer.name) == ("swing-top bottles", "Sucrose")
    assert looked is not None
    assert (looked.when.hour, looked.when.minute) == (7, 30)


@pytest.mark.parametrize("order", ["day first", "Day  First"])
def test_the_day_stands_first_in_a_log_however_it_is_put(order: str, tmp_path: Path) -> None:
    (tmp_path / "beer").mkdir()
    (tmp_path / "beer" / "log.csv").write_text("time,gravity\n03/04/2026 12:00,1.040\n", "utf-8")
    log = read_log(Text(f"log.csv, {order}", HERE), tmp_path, "beer", Problems())
    assert log is not None
    assert (log.times[0].day, log.times[0].month) == (3, 4)


@pytest.mark.parametrize(("moment", "there"), [("in the steep", "in the steep"), ("in the mash", "in the mash")])
def test_what_goes_into_a_mash_or_a_steep_needs_one(moment: str, there: str, plan_of: Callable[..., Any]) -> None:
    text = BREW.format(batch="20 L", line=f"3 g ginger, {moment}")
    if moment == "in the mash":
        text = text.replace("malts:\n  - 4 kg pale ale malt", "extracts:\n  - 3 kg light dried malt extract")
        text = text.replace("mash:\n  - 67 °C, 60 min\n", "")
    said = [str(problem) for problem in plan_of(text).problems if "Ginger" in problem.what]
    assert len(said) == 1
    assert f"Ginger root goes {there}, and there is none" in said[0]
