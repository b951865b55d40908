"""Every span of advice is silent just within each of its ends and speaks just beyond, as a table apart from it says.

The ends in `spans.csv` are written there. A recipe is written so that its figure comes to lie beside an end: by hand
where the line of the text is the figure or a round multiple of it, else by seeking the weight that brings it there.
"""

import csv
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from made_up import value

from gristbook.model.brewhouse import Brewhouse
from gristbook.problems import Problems, Severity
from gristbook.targets.advice.advice_rows import ROWS
from gristbook.targets.advice.caution_rows import CAUTIONS
from gristbook.targets.advice.cautions import cautions
from gristbook.targets.advice.slip_figures import conversion, mash_efficiency
from gristbook.targets.chain import work_out
from gristbook.targets.figures import Plan
from gristbook.text.book import read_book

TABLE = list(csv.DictReader(Path(__file__).with_name("spans.csv").open(encoding="utf-8", newline="")))
BESIDE_A_SPAN = {"starch", "raw grain"}
"""They have none: any weight of starch that is steeped, or of maize that is mashed raw, is too much."""

PLAIN = {
    "title": "title: A trial",
    "date": "date: 2026-03-01",
    "style": "style: ordinary bitter",
    "batch": "batch: 20 L",
    "malts": "malts:\n  - 2.9 kg pale ale malt\n  - 0.4 kg caramel malt 60",
    "hops": "hops:\n  - 40 g Fuggle, 4.5 % alpha, 60 min\n  - 20 g Fuggle, 4.5 % alpha, 10 min",
    "yeast": "yeast:\n  - 11 g english ale yeast, attenuative, dried",
    "mash": "mash:\n  - 67 °C, 60 min",
    "ferment": "ferment:\n  - 19 °C, 10 days",
    "carbonation": "carbonation: 2.0 volumes, primed with table sugar",
}
DRIED = "yeast:\n  - {x} g english ale yeast, attenuative, dried"
LAGER = "yeast:\n  - {x} g german lager yeast, dried"
LIQUID = "yeast:\n  - {} english ale yeast, attenuative, liquid"
TWO_YEASTS = "yeast:\n  - 11 g english ale yeast, attenuative, dried\n  - 11 g {} yeast, dried"
MALT = "malts:\n  - {x} kg pale ale malt"
A_LAGER = "yeast:\n  - 22 g german lager yeast, dried"
ACID = "water:\n  - {x} mL lactic acid 88 %, in the mash"
STEEPED = "malts:\n  - 2.9 kg pale ale malt\n  - 0.4 kg caramel malt 60, steep "
FUGGLE, TARGET = "hops:\n  - {x} g Fuggle, 4.5 % alpha, 60 min", "hops:\n  - {x} g Target, 11 % alpha, 60 min"
DRY = "hops:\n  - {x} g Fuggle, 4.5 % alpha, dry 3 days"


@dataclass(frozen=True, slots=True)
class Knob:
    """What of the plain recipe is written otherwise, with {x} for a number, and how the figure follows from it.

    The figure times ``times`` is the number, or ``figure`` finds it and the number is sought between ``least`` and
    ``most``. {rest} is what is left of ``whole``, and {day} so many days before the recipe's own. ``house`` turns the
    number into a brewhouse.
    """

    lines: tuple[str, ...] = ()
    times: float = 1.0
    figure: str | Callable[[Plan], float] = ""
    least: float = 0.0
    most: float = 0.0
    whole: float = 0.0
    house: Callable[[Brewhouse, float], Brewhouse] = lambda house, _: house

    def written(self, x: float) -> str:
        rest = [lines for key, lines in PLAIN.items() if not any(line.startswith(f"{key}:") for line in self.lines)]
        day = date(2026, 3, 1) - timedelta(days=round(x))
        own = (line.format(x=f"{x:.9g}", rest=f"{self.whole - x:.9g}", day=day) for line in self.lines)
        return "\n".join(["---", *rest, *own, "---", ""])


def _salted(house: Brewhouse, x: float) -> Brewhouse:
    """A tap with so many mg/L of six ions together."""
    water = house.water
    assert water is not None
    parts = {"calcium": 0.3, "magnesium": 0.05, "sodium": 0.1, "bicarbonate": 0.25, "sulfate": 0.2, "chloride": 0.1}
    ions = {ion: value(share * x, "mg/L", ion) for ion, share in parts.items()}
    return replace(house, water=replace(water, alkalinity=None, **ions))


def _with(house: Brewhouse, ion: str, x: float) -> Brewhouse:
    """A tap with so many mg/L of one ion."""
    water = house.water
    assert water is not None
    reading: dict[str, Any] = {ion: value(x, "mg/L", ion)}
    return replace(house, water=replace(water, **reading))


KNOBS: dict[tuple[str, str, str], Knob] = {
    ("base malt", "low", ""): Knob((f"{MALT}\n  - {{rest}} kg caramel malt 20",), 4, whole=4),
    ("base malt", "low", "a fifth is raw wheat"): Knob(
        (f"{MALT}\n  - 0.8 kg unmalted wheat\n  - {{rest}} kg caramel malt 20",), 4, whole=3.2
    ),
    ("base malt", "low", "half is raw wheat"): Knob(
        (f"{MALT}\n  - 2 kg unmalted wheat\n  - {{rest}} kg caramel malt 20",), 4, whole=2
    ),
    ("specialty malt", "high", ""): Knob(
        ("malts:\n  - {rest} kg pale ale malt\n  - {x} kg caramel malt 20",), 4, whole=4
    ),
    ("sugar", "high", ""): Knob(("malts:\n  - {rest} kg pale ale malt", "sugars:\n  - {x} kg table sugar"), 4, whole=4),
    ("diastatic power", "low", ""): Knob(
        ("malts:\n  - 2 kg pale ale malt\n  - {x} kg flaked maize",), figure="diastatic-power", least=0.1, most=8
    ),
    ("bitterness to gravity", "low", ""): Knob((FUGGLE,), figure="bitterness-to-gravity", least=2, most=40),
    ("bitterness to gravity", "high", ""): Knob((TARGET,), figure="bitterness-to-gravity", least=10, most=150),
    ("late hops", "high", ""): Knob(
        (
            "hops:\n  - {rest} g Fuggle, 4.5 %, dry 3 days\n"
            "  - 80 g Fuggle, 4.5 %, 20 min\n  - 40 g Fuggle, 4.5 %, 21 min",
        ),
        -20,
        whole=-80,
    ),
    ("dried yeast", "low", "an ale"): Knob((DRIED, "malts:\n  - 5.3 kg pale ale malt"), 20),
    ("dried yeast", "high", "an ale"): Knob((DRIED, "malts:\n  - 1.5 kg pale ale malt"), 20),
    ("dried yeast", "low", "a lager"): Knob((LAGER, "malts:\n  - 5.3 kg pale ale malt"), 20),
    ("dried yeast", "high", "a lager"): Knob((LAGER, "malts:\n  - 0.6 kg pale ale malt"), 20),
    ("dried yeast", "high", "a lager at 9 °C"): Knob(
        (LAGER, "ferment:\n  - 9 °C, 10 days", "malts:\n  - 1.5 kg pale ale malt"), 20
    ),
    ("cold dried lager yeast", "low", ""): Knob(
        ("ferment:\n  - {x} °C, 10 days", "yeast:\n  - 16 g german lager yeast, dried")
    ),
    ("dried yeast", "low", "a strong ale"): Knob((DRIED, "malts:\n  - 11 kg pale ale malt"), 20),
    ("liquid yeast", "low", ""): Knob(
        (LIQUID.format("1 pack"), MALT),
        figure=lambda plan: plan.figures.pitch.yeasts[0].cells.number / plan.figures.pitch.cells.number,  # type: ignore[union-attr]
        least=1.5,
        most=6,
    ),
    ("fermentation temperature", "low", ""): Knob(("ferment:\n  - {x} °C, 10 days",)),
    ("fermentation temperature", "high", ""): Knob(("ferment:\n  - {x} °C, 10 days",)),
    ("fermentation temperature", "low", "with a lager yeast beside it"): Knob(
        ("ferment:\n  - {x} °C, 10 days", TWO_YEASTS.format("german lager"))
    ),
    ("fermentation temperature", "high", "with a lager yeast beside it"): Knob(
        ("ferment:\n  - {x} °C, 10 days", TWO_YEASTS.format("german lager"))
    ),
    ("alcohol and yeast", "high", ""): Knob((MALT,), figure="alcohol-by-volume", least=4, most=30),
    ("alcohol and yeast", "high", "with a hardier yeast beside it"): Knob(
        (MALT, TWO_YEASTS.format("belgian golden strong ale")), figure="alcohol-by-volume", least=4, most=40
    ),
    ("old yeast", "high", ""): Knob((LIQUID.format("2 packs") + ", made {day}",)),
    ("carbonation", "low", ""): Knob(("carbonation: {x} volumes, keg",)),
    ("old hops", "high", ""): Knob(
        ("hops:\n  - 40 g Fuggle, 4.5 % alpha, 60 min, stored {x} days at 4 °C\n  - 9 g Fuggle, 4.5 %, 5 min",)
    ),
    **{
        (f"style: {figure.replace('-', ' ')}", side, ""): Knob(
            lines, figure=lambda plan, figure=figure, end=end: getattr(plan.sheet[figure], end), least=least, most=most
        )
        for figure, lines, least, most in (
            ("original-gravity", (MALT,), 1, 6),
            ("final-gravity", (MALT,), 1, 8),
            ("alcohol-by-volume", (MALT,), 1, 6),
            ("bitterness", (FUGGLE,), 20, 300),
            ("colour", ("malts:\n  - 2.9 kg pale ale malt\n  - {x} kg caramel malt 60",), 0.05, 2),
        )
        for side, end in (("low", "high"), ("high", "low"))
    },
    ("strength of the wort", "low", ""): Knob(
        (MALT,),
        figure=lambda plan: plan.figures.wort.equivalent_original.number,
        least=0.1,
        most=3,
    ),
    ("strength of the wort", "high", ""): Knob(
        ("malts:\n  - 10 kg pale ale malt", "sugars:\n  - {x} kg lactose"),
        figure=lambda plan: plan.figures.wort.equivalent_original.number,
        least=1,
        most=10,
    ),
    **{
        (key, side, ""): Knob(
            figure=figure,
            least=0.05,
            most=0.95,
            house=lambda house, x: replace(house, efficiency=value(x, "fraction", "efficiency")),
        )
        for key, side, figure in (
            ("mash efficiency", "low", lambda plan: mash_efficiency(plan).number),
            ("conversion", "high", lambda plan: conversion(plan).number),
        )
    },
    ("bitterness in beer", "high", ""): Knob((TARGET,), figure="bitterness", least=60, most=900),
    ("hops for a litre", "high", ""): Knob((DRY,), 20),
    ("dried yeast for a litre", "high", ""): Knob((DRIED,), 20),
    ("thick mash", "low", ""): Knob(("mash:\n  - 67 °C, 60 min, {x} L",), 3.3),
    ("time of the mash", "low", ""): Knob(("mash:\n  - 67 °C, {x} min\n  - 77 °C, 40 min\n  - 77.5 °C, 5 min",)),
    ("time of the mash", "low", "in two rests"): Knob(
        ("mash:\n  - 57.5 °C, 30 min\n  - 58 °C, 3 min\n  - 76 °C, {rest} min",), -1, whole=-3
    ),
    ("falling mash", "high", ""): Knob(("mash:\n  - 72 °C, 30 min\n  - {rest} °C, 30 min",), whole=72),
    ("hot steep", "high", ""): Knob((f"{STEEPED}30 min at {{x}} °C",)),
    ("time of the steep", "low", ""): Knob(
        (f"{STEEPED}{{x}} min at 68 °C\n  - 0.1 kg caramel malt 20, steep 3 h at 40 °C",)
    ),
    ("time of the steep", "high", ""): Knob(
        (f"{STEEPED}{{x}} min at 68 °C\n  - 0.1 kg caramel malt 20, steep 20 min at 68 °C",)
    ),
    ("length of the boil", "high", ""): Knob(("boil: {x} min",)),
    ("length of the boil", "high", "of a strong wort"): Knob(("boil: {x} min", "malts:\n  - 11 kg pale ale malt")),
    ("time of the mash", "high", ""): Knob(("mash:\n  - 67 °C, {x} min",)),
    **{("mash temperature", side, ""): Knob(("mash:\n  - {x} °C, 60 min",)) for side in ("low", "high")},
    ("strike water", "low", ""): Knob(("mash:\n  - 67 °C, 60 min, strike at {x} °C",)),
    ("strike water", "high", ""): Knob(("mash:\n  - 67 °C, 60 min, strike at {x} °C",)),
    ("decoction", "low", ""): Knob(("mash:\n  - 52 °C, 15 min\n  - 67 °C, 60 min, decoction, {x} L",)),
    ("decoction", "high", ""): Knob(("mash:\n  - 52 °C, 15 min\n  - 67 °C, 60 min, decoction, {x} L",)),
    ("infusion", "low", ""): Knob(("mash:\n  - 52 °C, 15 min\n  - 67 °C, 60 min, infusion {x} L at 95 °C",)),
    ("infusion", "high", ""): Knob(("mash:\n  - 52 °C, 15 min\n  - 67 °C, 60 min, infusion {x} L at 95 °C",)),
    ("sparge water", "low", ""): Knob(("mash:\n  - 67 °C, 60 min\n  - sparge with {x} L",)),
    ("sparge water", "high", ""): Knob(("mash:\n  - 67 °C, 60 min\n  - sparge with {x} L",)),
    ("hot sparge", "high", ""): Knob(("mash:\n  - 67 °C, 60 min\n  - sparge at {x} °C",)),
    ("priming sugar", "low", ""): Knob(("carbonation: 2.0 volumes, primed with table sugar, {x} g/L",)),
    ("priming sugar", "high", ""): Knob(("carbonation: 2.0 volumes, primed with table sugar, {x} g/L",)),
    ("hot rest", "high", ""): Knob(("mash:\n  - 67 °C, 60 min\n  - {x} °C, 5 min",)),
    ("cool rest", "high", ""): Knob(("mash:\n  - 50 °C, {x} min\n  - 67 °C, 60 min",)),
    ("short boil", "low", ""): Knob(("boil: {x} min", "hops: []")),
    ("short boil", "low", "of pilsner malt"): Knob(
        ("boil: {x} min", "hops: []", "malts:\n  - 2 kg pilsner malt\n  - 2 kg pale ale malt")
    ),
    ("warming", "high", ""): Knob(("ferment:\n  - 19 °C, 5 days\n  - {x} °C, 5 days",)),
    ("warming", "high", "of a lager"): Knob((A_LAGER, "ferment:\n  - 10 °C, 12 days\n  - {x} °C, 3 days")),
    ("early warmth", "low", ""): Knob((A_LAGER, "ferment:\n  - 10 °C, {x} days\n  - 14 °C, 9 days")),
    ("freezing", "low", ""): Knob(("ferment:\n  - 19 °C, 10 days\n  - {x} °C, 3 days",)),
    ("lagering", "low", ""): Knob((A_LAGER, "ferment:\n  - 10 °C, 12 days\n  - 7 °C, {x} days")),
    ("time of fermenting", "low", ""): Knob(("ferment:\n  - 19 °C, {x} days",)),
    ("time of fermenting", "low", "of a lager"): Knob((A_LAGER, "ferment:\n  - 10 °C, {x} days\n  - 2 °C, 4 weeks")),
    ("time of fermenting", "high", ""): Knob(("ferment:\n  - 19 °C, {x} days",)),
    ("dry hops", "high", ""): Knob((DRY,), 20),
    ("dry hops", "high", "of an India pale ale"): Knob((DRY, "style: american ipa"), 20),
    **{
        ("temperature of dry hopping", side, where): Knob(
            (DRY.format(x=20), "ferment:\n  - 14 °C, 5 days\n  - {x} °C, 3 days", *more)
        )
        for side, where, more in (("low", "", ()), ("high", "", ()), ("high", "of a lager", (A_LAGER,)))
    },
    ("huskless grain", "high", ""): Knob(
        ("malts:\n  - {rest} kg pale ale malt\n  - {x} kg pale wheat malt",), 4, whole=4
    ),
    ("rye and oats", "high", ""): Knob(("malts:\n  - {rest} kg pale ale malt\n  - {x} kg rye malt",), 4, whole=4),
    ("unmalted grain", "high", ""): Knob(
        ("malts:\n  - {rest} kg pale two-row malt\n  - {x} kg unmalted wheat",), 4, whole=4
    ),
    ("attenuation of the yeast", "high", ""): Knob(
        ("yeast:\n  - 11 g english ale yeast, attenuative, dried, {x} % attenuation",), 100
    ),
    **{
        ("end of fermentation", "low", where): Knob(
            (f"yeast:\n  - 11 g english ale yeast, {kind}, dried", "sugars:\n  - {x} kg lactose"),
            figure="apparent-attenuation",
            least=0.01,
            most=4,
        )
        for where, kind in (("", "attenuative"), ("of a sweeter yeast", "highly flocculent"))
    },
    **{
        ("what it is named for", "low", where): Knob(
            (*lines, f"malts:\n  - {{rest}} kg pale ale malt\n  - {{x}} kg {malt}{dark}"), 4, whole=4 - 0.4 * bool(dark)
        )
        for where, lines, malt, dark in (
            ("oats", ("style: oatmeal stout",), "flaked oats", "\n  - 0.4 kg roasted barley"),
            ("wheat", ("style: weissbier", "yeast:\n  - 11 g german wheat yeast, dried"), "pale wheat malt", ""),
            ("rye", ("title: A trial of rye",), "rye malt", ""),
            ("smoke", ("style: rauchbier", A_LAGER), "beech-smoked malt", ""),
            ("dark malt", ("style: irish stout",), "roasted barley", ""),
            ("Munich malt", ("style: munich dunkel", A_LAGER), "light Munich malt", ""),
        )
    },
    ("what it is named for", "low", "lactose"): Knob(
        (
            "style: sweet stout",
            "malts:\n  - {rest} kg pale ale malt\n  - 0.4 kg roasted barley",
            "sugars:\n  - {x} kg lactose",
        ),
        4,
        whole=3.6,
    ),
    **{
        ("taste of the water", "high", ion): Knob(house=lambda house, x, ion=ion: _with(house, ion, x))
        for ion in ("sodium", "chloride", "sulfate", "magnesium")
    },
    ("calcium", "low", ""): Knob(house=lambda house, x: _with(house, "calcium", x)),
    **{
        ("mash pH", side, ""): Knob(
            (ACID, "malts:\n  - 4 kg pilsner malt"),
            figure=lambda plan: plan.sheet["mash-ph"].number,
            least=0.01,
            most=30,
        )
        for side in ("low", "high")
    },
    ("taste of lactic acid", "high", ""): Knob((ACID,), 20),
    ("steam", "high", ""): Knob(
        figure=lambda plan: plan.brewhouse.boil_off.number / plan.figures.volumes.boil.number,
        least=2,
        most=60,
        house=lambda house, x: replace(house, boil_off=value(x, "L/h", "boil-off")),
    ),
    ("steam", "high", "of half an hour's boil"): Knob(
        ("boil: 30 min", "hops:\n  - 40 g Fuggle, 4.5 % alpha, 30 min"),
        figure=lambda plan: plan.brewhouse.boil_off.number / 2 / plan.figures.volumes.boil.number,
        least=2,
        most=120,
        house=lambda house, x: replace(house, boil_off=value(x, "L/h", "boil-off")),
    ),
    ("size of the batch", "high", ""): Knob(("batch: {x} L", "malts:\n  - 100 kg pale ale malt")),
    ("batch of its brewhouse", "high", ""): Knob(
        ("batch: {x} L", "malts:\n  - 12 kg pale ale malt"),
        20,
        house=lambda house, _: replace(house, batch=value(20, "L", "batch")),
    ),
    ("weight of the bag", "high", ""): Knob((MALT,), house=lambda house, _: replace(house, mash="bag")),
    ("raw wort", "low", ""): Knob(("boil: {x} min", "hops: []")),
    ("time on dry hops", "high", ""): Knob(
        (
            "hops:\n  - 20 g Fuggle, 4.5 % alpha, dry {x} days\n  - 9 g Fuggle, 4.5 % alpha, dry 3 days",
            "ferment:\n  - 19 °C, 8 weeks",
        )
    ),
    ("salts in the water", "high", ""): Knob(house=_salted),
    ("fermenter", "high", ""): Knob(house=lambda house, x: replace(house, fermenter=value(20 / x, "L", "fermenter"))),
}


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Brewhouse:
    """A brewhouse with a tap that somebody named."""
    folder = tmp_path_factory.mktemp("spans")
    (folder / "book.yaml").write_text(
        "title: A book\nbrewhouses:\n  home: {water: moderately hard tap water}\n", "utf-8"
    )
    book = read_book(folder, problems := Problems())
    assert book is not None, list(problems)
    return book.brewhouses["home"]


@dataclass(frozen=True, slots=True)
class Trial:
    """One recipe with a number to turn, and what is said of it by a row."""

    knob: Knob
    words: str
    home: Brewhouse
    plan_of: Callable[..., Any]

    def said(self, figure: float) -> list[Severity]:
        """How gravely the row speaks where its figure is so much."""
        x = self.x(figure)
        outcome = self.plan_of(self.knob.written(x), {"home": self.knob.house(self.home, x)})
        assert outcome.recipe is not None, [str(it) for it in outcome.problems]
        assert not [it for it in outcome.problems if "cannot be brewed" in it.what]
        return [it.severity for it in outcome.problems if it.what.startswith(self.words)]

    def x(self, wanted: float) -> float:
        """The number that brings the figure there, by false position between the ends."""
        if not self.knob.figure:
            return wanted * self.knob.times
        low, high = self.knob.least, self.knob.most
        off_low, off_high = self._figure(low) - wanted, self._figure(high) - wanted
        assert off_low * off_high < 0, (off_low, off_high)
        for _ in range(60):
            x = (low * off_high - high * off_low) / (off_high - off_low)
            off = self._figure(x) - wanted
            if abs(off) <= 1e-7 * abs(wanted):
                break
            if off * off_high < 0:
                low, off_low = high, off_high
            else:
                off_low /= 2
            high, off_high = x, off
        return x

    def _figure(self, x: float) -> float:
        home = self.knob.house(self.home, x)
        recipe = self.plan_of(self.knob.written(x), {"home": home}).recipe
        plan = Plan(recipe, home, MODELS[0], MODELS[1], work_out(recipe, home, *MODELS), None)
        figure = self.knob.figure
        return plan.sheet[figure].number if isinstance(figure, str) else figure(plan)


MODELS = ("tinseth 1997", "morey 1995")


@pytest.fixture
def trial(plan_of: Callable[..., Any], house: Brewhouse) -> Callable[[dict[str, str]], Trial]:
    def of(line: dict[str, str]) -> Trial:
        row = next(row for row in ROWS if row.key == line["about"])
        words = row.too_low if line["side"] == "low" else row.too_high
        return Trial(KNOBS[line["about"], line["side"], line["where"]], words.partition("{")[0], house, plan_of)

    return of


def named(line: dict[str, str]) -> str:
    return "-".join(line[part] for part in ("about", "side", "where") if line[part])


@pytest.mark.parametrize("line", TABLE, ids=map(named, TABLE))
def test_a_row_is_silent_to_the_end_of_its_span_and_speaks_beyond(
    line: dict[str, str], trial: Callable[[dict[str, str]], Trial]
) -> None:
    """It speaks of what a page shows, so the end is a half of the last digit shown further out."""
    tried, out = trial(line), -1 if line["side"] == "low" else 1
    end, digit = float(line["usual"]), float(line["shown to"] or 0)
    within, beyond = (0.4 * digit, 0.6 * digit) if digit else (-0.001 * end, 0.001 * end)
    assert tried.said(end + out * within) == []
    assert tried.said(end + out * beyond) == [Severity.WARNING]


@pytest.mark.parametrize("line", [line for line in TABLE if line["possible"]], ids=named)
def test_a_row_warns_to_the_end_of_what_is_possible_and_stops_beyond(
    line: dict[str, str], trial: Callable[[dict[str, str]], Trial]
) -> None:
    tried, out = trial(line), -1 if line["side"] == "low" else 1
    end = float(line["possible"])
    step = 1e-4 * end if line["unit"] != "SG" else 1e-6
    assert tried.said(end - out * step) == [Severity.WARNING]
    if not tried.knob.figure:
        assert tried.said(end) == [Severity.WARNING]
    assert tried.said(end + out * step) == [Severity.ERROR]


def test_a_wort_wants_the_dose_of_a_strong_one_from_1_061_on(plan_of: Callable[..., Any], house: Brewhouse) -> None:
    """From memory: White and Zainasheff 2010. 0.7 g/L is a full dose for an ale, and too little for a strong one."""
    weights = Knob(("yeast:\n  - 14 g english ale yeast, attenuative, dried", MALT), 1, "original-gravity", 4, 9)
    trial = Trial(weights, "There is little yeast for this wort.", house, plan_of)
    assert trial.said(1.0604) == []
    assert trial.said(1.0606) == [Severity.WARNING]


@pytest.mark.parametrize(("abv", "days", "is_strong"), [(7.499, 10 + 3 + 14, False), (7.501, 10 + 3 + 56, True)])
def test_a_beer_from_seven_and_a_half_per_cent_on_is_a_strong_one(
    abv: float, days: float, is_strong: bool, plan_of: Callable[..., Any], house: Brewhouse
) -> None:
    """Common practice, no source. Eight weeks in the bottle in place of two, after readings three days apart."""
    trial = Trial(Knob((MALT,), 1, "alcohol-by-volume", 4, 10), "", house, plan_of)
    plan = plan_of(trial.knob.written(trial.x(abv)), {"home": house}).plan
    assert plan.sheet["days-until-it-is-ready"].number == days
    strong = {caution.words for caution in CAUTIONS if caution.when == "a strong beer"}
    assert bool(strong & {caution.words for caution in cautions(plan)}) is is_strong


def test_a_strong_beer_in_a_keg_waits_for_its_gas_alone(plan_of: Callable[..., Any], house: Brewhouse) -> None:
    """Common practice, no source: a week under gas, after the same ten days and the readings three days apart."""
    trial = Trial(Knob((MALT, "carbonation: 2.4 volumes, keg"), 1, "alcohol-by-volume", 4, 10), "", house, plan_of)
    plan = plan_of(trial.knob.written(trial.x(8.0)), {"home": house}).plan
    assert plan.sheet["days-until-it-is-ready"].number == 10 + 3 + 7


def test_no_side_of_any_row_is_without_its_end() -> None:
    sides = {(row.key, side) for row in ROWS for side in ("low", "high") if getattr(row, f"too_{side}")}
    assert {(line["about"], line["side"]) for line in TABLE} == {it for it in sides if it[0] not in BESIDE_A_SPAN}
    stopping = {
        (row.key, side)
        for row in ROWS
        for side, bound in zip(("low", "high"), row.possible, strict=True)
        if abs(bound) < 1e9
    }
    assert {(line["about"], line["side"]) for line in TABLE if line["possible"]} == {
        it for it in stopping if it in sides
    }


def test_every_end_says_how_far_it_is_known() -> None:
    known = ("read: ", "from memory: ", "by hand: ", "common practice, no source")
    assert [line for line in TABLE if not line["standing"].startswith(known)] == []
