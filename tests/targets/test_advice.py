"""Every row of advice speaks up where it should and keeps quiet where it should; it never touches a recipe."""

import re
from collections.abc import Callable
from copy import deepcopy
from typing import Any

import pytest

from gristbook.problems import Problems, Severity
from gristbook.targets.advice.advice import Advice, advise
from gristbook.targets.advice.advice_rows import ROWS
from gristbook.targets.advice.judgement import judgement
from gristbook.targets.figures import Plan
from gristbook.text.book import read_book

SOUND = {
    "title": "title: A sound recipe",
    "date": "date: 2026-03-01",
    "style": "style: ordinary bitter",
    "batch": "batch: 20 L",
    "malts": "malts:\n  - 2.9 kg pale ale malt\n  - 400 g caramel malt 60",
    "hops": "hops:\n  - 40 g Fuggle, 4.5 % alpha, 60 min\n  - 20 g Fuggle, 4.5 % alpha, 10 min",
    "yeast": "yeast:\n  - 11 g english ale yeast, attenuative, dried",
    "mash": "mash:\n  - 67 °C, 60 min",
    "ferment": "ferment:\n  - 19 °C, 10 days",
    "carbonation": "carbonation: 2.0 volumes, primed with table sugar",
}
"""A bitter that nobody says anything against."""

LIQUID = "yeast:\n  - {} english ale yeast, attenuative, liquid"
STRONG = "yeast:\n  - 40 g belgian golden strong ale yeast, dried"
DRIED = "yeast:\n  - {} english ale yeast, attenuative, dried"

LAGER = "yeast:\n  - 22 g german lager yeast, dried"

OFFENDING: dict[tuple[str, str], tuple[str, ...]] = {
    ("base malt", "low"): ("malts:\n  - 2.1 kg pale ale malt\n  - 900 g caramel malt 20",),
    ("specialty malt", "high"): ("malts:\n  - 2.3 kg pale ale malt\n  - 700 g caramel malt 20",),
    ("sugar", "high"): ("sugars:\n  - 900 g table sugar",),
    ("diastatic power", "low"): ("malts:\n  - 1.5 kg pale ale malt\n  - 1.8 kg flaked maize",),
    ("starch", "high"): ("malts:\n  - 3 kg pale ale malt\n  - 300 g flaked oats, steep 30 min at 68 °C",),
    ("bitterness to gravity", "low"): ("hops:\n  - 5 g Fuggle, 4.5 % alpha, 60 min",),
    ("bitterness to gravity", "high"): ("hops:\n  - 100 g Target, 11 % alpha, 60 min",),
    ("late hops", "high"): ("hops:\n  - 25 g Fuggle, 4.5 % alpha, 60 min\n  - 450 g Fuggle, 4.5 % alpha, dry 3 days",),
    ("dried yeast", "low"): (DRIED.format("3 g"),),
    ("dried yeast", "high"): (DRIED.format("60 g"),),
    ("cold dried lager yeast", "low"): ("yeast:\n  - 22 g german lager yeast, dried", "ferment:\n  - 9 °C, 10 days"),
    ("liquid yeast", "low"): (LIQUID.format("1 pack"), "malts:\n  - 6 kg pale ale malt"),
    ("fermentation temperature", "low"): ("ferment:\n  - 9 °C, 10 days",),
    ("fermentation temperature", "high"): ("ferment:\n  - 30 °C, 10 days",),
    ("alcohol and yeast", "high"): ("malts:\n  - 8 kg pale ale malt", "sugars:\n  - 1.5 kg table sugar"),
    ("old yeast", "high"): (LIQUID.format("2 packs").replace("liquid", "liquid, made 2025-06-01"),),
    ("carbonation", "low"): ("carbonation: 1.1 volumes, keg",),
    ("old hops", "high"): ("hops:\n  - 40 g Fuggle, 4.5 % alpha, 60 min, stored 60 weeks at 4 °C",),
    ("strength of the wort", "low"): ("malts:\n  - 700 g pale ale malt",),
    ("strength of the wort", "high"): ("malts:\n  - 13 kg pale ale malt", "sugars:\n  - 4.5 kg lactose", STRONG),
    ("mash efficiency", "low"): ("brewhouse: thrifty",),
    ("conversion", "high"): ("brewhouse: greedy",),
    ("bitterness in beer", "high"): ("hops:\n  - 200 g Target, 11 % alpha, 60 min",),
    ("hops for a litre", "high"): ("hops:\n  - 900 g Fuggle, 4.5 % alpha, dry 3 days",),
    ("dried yeast for a litre", "high"): (DRIED.format("250 g"),),
    ("thick mash", "low"): ("mash:\n  - 67 °C, 60 min, 5 L",),
    ("time of the mash", "low"): ("mash:\n  - 67 °C, 10 min",),
    ("time of the mash", "high"): ("mash:\n  - 67 °C, 3 h",),
    ("mash temperature", "low"): ("mash:\n  - 61 °C, 60 min",),
    ("mash temperature", "high"): ("mash:\n  - 73 °C, 60 min",),
    ("strike water", "low"): ("mash:\n  - 67 °C, 60 min, strike at 68 °C",),
    ("strike water", "high"): ("mash:\n  - 67 °C, 60 min, strike at 82 °C",),
    ("decoction", "low"): ("mash:\n  - 62 °C, 30 min\n  - 72 °C, 30 min, decoction 1 L",),
    ("decoction", "high"): ("mash:\n  - 62 °C, 30 min\n  - 72 °C, 30 min, decoction 9 L",),
    ("infusion", "low"): ("mash:\n  - 62 °C, 30 min\n  - 72 °C, 30 min, infusion 2 L at 95 °C",),
    ("infusion", "high"): ("mash:\n  - 62 °C, 30 min\n  - 72 °C, 30 min, infusion 9 L at 95 °C",),
    ("sparge water", "low"): ("mash:\n  - 67 °C, 60 min\n  - sparge with 9 L at 77 °C",),
    ("sparge water", "high"): ("mash:\n  - 67 °C, 60 min\n  - sparge with 30 L at 77 °C",),
    ("hot sparge", "high"): ("mash:\n  - 67 °C, 60 min\n  - sparge at 90 °C",),
    ("priming sugar", "low"): ("carbonation: 2.0 volumes, primed with 40 g table sugar",),
    ("priming sugar", "high"): ("carbonation: 2.0 volumes, primed with 8 oz table sugar",),
    ("hot rest", "high"): ("mash:\n  - 67 °C, 60 min\n  - 79 °C, 5 min",),
    ("cool rest", "high"): ("mash:\n  - 50 °C, 60 min\n  - 67 °C, 60 min",),
    ("short boil", "low"): ("boil: 30 min", "hops:\n  - 60 g Fuggle, 4.5 % alpha, 30 min"),
    ("warming", "high"): ("ferment:\n  - 19 °C, 5 days\n  - 30 °C, 5 days",),
    ("early warmth", "low"): (LAGER, "ferment:\n  - 10 °C, 3 days\n  - 18 °C, 9 days\n  - 2 °C, 3 weeks"),
    ("freezing", "low"): ("ferment:\n  - 19 °C, 10 days\n  - -4 °C, 3 days",),
    ("lagering", "low"): (LAGER, "ferment:\n  - 10 °C, 12 days\n  - 2 °C, 3 days"),
    ("time of fermenting", "low"): ("ferment:\n  - 19 °C, 4 days",),
    ("time of fermenting", "high"): ("ferment:\n  - 19 °C, 10 weeks",),
    ("dry hops", "high"): ("hops:\n  - 20 g Fuggle, 4.5 % alpha, 60 min\n  - 200 g Fuggle, 4.5 % alpha, dry 3 days",),
    ("temperature of dry hopping", "low"): (
        "hops:\n  - 20 g Fuggle, 4.5 % alpha, dry 3 days",
        "ferment:\n  - 19 °C, 10 days\n  - 4 °C, 5 days",
    ),
    ("temperature of dry hopping", "high"): (
        "hops:\n  - 20 g Fuggle, 4.5 % alpha, dry 3 days",
        "ferment:\n  - 19 °C, 5 days\n  - 24 °C, 5 days",
    ),
    ("huskless grain", "high"): ("malts:\n  - 1 kg pale ale malt\n  - 2.2 kg pale wheat malt",),
    ("rye and oats", "high"): ("malts:\n  - 2.2 kg pale ale malt\n  - 1 kg rye malt",),
    ("raw grain", "high"): ("malts:\n  - 2.8 kg pale ale malt\n  - 400 g polenta",),
    ("unmalted grain", "high"): ("malts:\n  - 1.5 kg pale two-row malt\n  - 1.8 kg unmalted wheat",),
    ("attenuation of the yeast", "high"): ("yeast:\n  - 11 g english ale yeast, attenuative, dried, 90 % attenuation",),
    ("end of fermentation", "low"): ("sugars:\n  - 900 g lactose",),
    ("what it is named for", "low"): ("style: oatmeal stout",),
    ("taste of the water", "high"): ("brewhouse: salty",),
    ("mash pH", "low"): ("water:\n  - distilled water\n  - 15 mL lactic acid 88 %, in the mash",),
    ("mash pH", "high"): ("water:\n  - very hard water",),
    ("calcium", "low"): ("water:\n  - distilled water",),
    ("taste of lactic acid", "high"): ("water:\n  - very hard water\n  - 9 mL lactic acid 88 %, in the mash",),
    ("falling mash", "high"): ("mash:\n  - 72 °C, 30 min\n  - 64 °C, 30 min",),
    ("hot steep", "high"): ("malts:\n  - 2.9 kg pale ale malt\n  - 400 g caramel malt 60, steep 30 min at 85 °C",),
    ("time of the steep", "low"): (
        "malts:\n  - 2.9 kg pale ale malt\n  - 400 g caramel malt 60, steep 2 min at 68 °C",
    ),
    ("time of the steep", "high"): ("malts:\n  - 2.9 kg pale ale malt\n  - 400 g caramel malt 60, steep 5 h at 68 °C",),
    ("length of the boil", "high"): ("boil: 6 h",),
    ("steam", "high"): ("brewhouse: lively",),
    ("size of the batch", "high"): ("batch: 150 L", "malts:\n  - 24 kg pale ale malt"),
    ("batch of its brewhouse", "high"): ("batch: 20 gal",),
    ("weight of the bag", "high"): ("brewhouse: bag", "malts:\n  - 11 kg pale ale malt", STRONG),
    ("raw wort", "low"): ("boil: 0 min", "hops: []"),
    ("time on dry hops", "high"): ("hops:\n  - 20 g Fuggle, 4.5 % alpha, dry 6 weeks", "ferment:\n  - 19 °C, 8 weeks"),
    ("salts in the water", "high"): ("brewhouse: salty",),
    ("fermenter", "high"): ("brewhouse: snug",),
    ("style: original gravity", "low"): ("malts:\n  - 2 kg pale ale malt",),
    ("style: original gravity", "high"): ("malts:\n  - 5 kg pale ale malt",),
    ("style: final gravity", "low"): ("malts:\n  - 1.8 kg pale ale malt",),
    ("style: final gravity", "high"): ("malts:\n  - 8 kg pale ale malt",),
    ("style: alcohol by volume", "low"): ("malts:\n  - 2 kg pale ale malt",),
    ("style: alcohol by volume", "high"): ("malts:\n  - 5 kg pale ale malt",),
    ("style: bitterness", "low"): ("hops:\n  - 20 g Fuggle, 4.5 % alpha, 60 min",),
    ("style: bitterness", "high"): ("hops:\n  - 40 g Target, 11 % alpha, 60 min",),
    ("style: colour", "low"): ("malts:\n  - 3.2 kg pale ale malt",),
    ("style: colour", "high"): ("malts:\n  - 3 kg pale ale malt\n  - 250 g chocolate malt",),
}
"""For each row and each side of its span, what of the sound recipe is made to offend it."""


def text_of(*changes: str) -> str:
    rest = [lines for key, lines in SOUND.items() if not any(change.startswith(f"{key}:") for change in changes)]
    return "\n".join(["---", *rest, *changes, "---", ""])


BOOK = """title: A book of odd vessels
brewhouses:
  home: {}
  thrifty: {efficiency: 35 %}
  greedy: {efficiency: 99 %}
  lively: {boil-off: 20 L/h}
  bag: {mash: bag, batch: 40 L}
  salty: {water: brine}
  snug: {fermenter: 22 L}
"""


BRINE = """\
- name: brine
  calcium: 480 mg/L
  magnesium: 80 mg/L
  sodium: 150 mg/L
  bicarbonate: 1400 mg/L
  sulfate: 400 mg/L
  chloride: 260 mg/L
  about: The spring above the chapel.
  source: the parish's report, invented
"""


@pytest.fixture(scope="session")
def plan_of(plan_of: Callable[..., Any], tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Any]:
    """As everywhere, with brewhouses that a recipe may go wrong in."""
    folder = tmp_path_factory.mktemp("odd-vessels")
    (folder / "book.yaml").write_text(BOOK, "utf-8")
    (folder / "pantry").mkdir()
    (folder / "pantry" / "waters.yaml").write_text(BRINE, "utf-8")
    book = read_book(folder, problems := Problems())
    assert book is not None, list(problems)
    return lambda text: plan_of(text, book.brewhouses)


@pytest.fixture(scope="session")
def plan(plan_of: Callable[..., Any]) -> Callable[..., Plan]:
    """`plan("malts:…", …)`: the sound recipe with some of its sections replaced."""

    def build(*changes: str) -> Plan:
        outcome = plan_of(text_of(*changes))
        assert outcome.plan is not None, [str(problem) for problem in outcome.problems]
        return outcome.plan  # type: ignore[no-any-return]

    return build


def of(given: tuple[Advice, ...], key: str) -> list[Advice]:
    return [advice for advice in given if advice.key == key]


def test_nobody_says_anything_against_a_sound_recipe(plan: Callable[..., Plan]) -> None:
    assert judgement(plan()) == ()


def test_every_row_is_tried_on_every_side_that_it_speaks_of() -> None:
    sides = {(row.key, side) for row in ROWS for side in ("low", "high") if getattr(row, f"too_{side}")}
    assert sides == set(OFFENDING)


@pytest.mark.parametrize(("key", "side"), OFFENDING, ids=lambda part: part)
def test_a_row_speaks_up_where_a_recipe_offends_it(key: str, side: str, plan: Callable[..., Plan]) -> None:
    row = next(row for row in ROWS if row.key == key)
    said = of(advise(plan(*OFFENDING[key, side]), ROWS), key)
    assert [advice.words for advice in said] == [getattr(row, f"too_{side}").format(what=said[0].figure.label)]
    assert said[0].reason == row.reason
    assert said[0].standing == row.standing != ""
    bound = said[0].low if side == "low" else said[0].high
    if bound is not None:
        assert (said[0].figure.number < bound.number) == (side == "low")


def test_what_weighs_most_is_said_first_and_what_is_meant_last(plan: Callable[..., Plan]) -> None:
    bad = ("mash:\n  - 73 °C, 60 min", "hops:\n  - 5 g Fuggle, 4.5 % alpha, 60 min", "malts:\n  - 5 kg pale ale malt")
    keys = [advice.key for advice in judgement(plan(*bad))]
    assert keys[:2] == ["mash temperature", "bitterness to gravity"]
    assert all(key.startswith("style") for key in keys[-2:])
    meant = [advice.key for advice in judgement(plan(*bad, "meant:\n  mash temperature: it is a trial"))]
    assert meant == [*keys[1:], keys[0]]


def test_a_ph_that_is_a_little_out_is_told_on_pages_alone(plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(text_of("water:\n  - moderately hard tap water"))
    assert [advice.words for advice in of(judgement(outcome.plan), "mash pH")] == [
        "The pH of the mash is a little high, worth a measurement."
    ]
    assert not [problem for problem in outcome.problems if "pH" in problem.what]


def test_an_end_that_is_nothing_or_nowhere_is_not_told_as_one(plan: Callable[..., Plan]) -> None:
    """Nobody is told that sugar is usual from 0 % on, or base malt up to no end."""
    ends = {
        key: [end.number if end else None for end in (said.low, said.high)]
        for key, side in (("sugar", "high"), ("base malt", "low"))
        for said in of(advise(plan(*OFFENDING[key, side]), ROWS), key)
    }
    assert ends == {"sugar": [None, 0.2], "base malt": [0.75, None]}


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        (("sugars:\n  - 1.1 kg table sugar",), "There is more sugar than usual. 25 %, usually to 20 %"),
        (OFFENDING["base malt", "low"], "There is less base malt than usual. 70 %, usually from 75 %"),
        (
            ("ferment:\n  - 9.5 °C, 10 days",),
            "It begins cooler than this yeast likes. 9.5 °C, usually from 17 °C to 22 °C",
        ),
        (("carbonation: 1.1 volumes, keg",), "There is little gas. 1.1 volumes, usually from 1.3 volumes"),
        (("batch: 80 L", "malts:\n  - 12 kg pale ale malt"), "brewhouse is set for. 4, usually to 3.5"),
    ],
)
def test_a_warning_says_the_figure_and_the_ends_that_there_are(
    changes: tuple[str, ...], said: str, plan_of: Callable[..., Any]
) -> None:
    told = [problem.what for problem in plan_of(text_of(*changes)).problems]
    assert any(words.endswith(said) for words in told), told


@pytest.mark.parametrize(("key", "side"), OFFENDING, ids=lambda part: part)
def test_what_is_meant_is_no_warning_and_keeps_its_reason(
    key: str, side: str, plan_of: Callable[..., Any], plan: Callable[..., Plan]
) -> None:
    changes = OFFENDING[key, side]
    meant = f'meant:\n  "{key}": the miller likes\n    it so'
    bare, outcome = plan_of(text_of(*changes)), plan_of(text_of(*changes, meant))
    asked = f"as usual, or meant: {key}: why"
    assert [problem.severity for problem in bare.problems if problem.expected == asked] == [Severity.WARNING]
    assert [problem for problem in outcome.problems if problem.expected == asked] == []
    assert not [problem for problem in outcome.problems if "meant" in problem.what]
    assert [advice.meant for advice in of(advise(outcome.plan, ROWS), key)] == ["the miller likes it so"]
    assert [advice.meant for advice in advise(bare.plan, ROWS) if advice.meant] == []


@pytest.mark.parametrize(("key", "side"), OFFENDING, ids=lambda part: part)
def test_advice_changes_nothing_of_a_plan(key: str, side: str, plan: Callable[..., Plan]) -> None:
    plain = plan(*OFFENDING[key, side])
    before = deepcopy(plain)
    advise(plain, ROWS)
    assert plain == before
    meant = plan(*OFFENDING[key, side], f'meant:\n  "{key}": so it is')
    assert meant.figures == plain.figures
    assert meant.recipe.malts == plain.recipe.malts
    assert meant.recipe.hops == plain.recipe.hops


def test_an_intention_that_no_row_knows_is_a_problem(plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(text_of("meant:\n  late hop: they are lovely"))
    assert outcome.plan is None
    errors = [problem for problem in outcome.problems if problem.severity is Severity.ERROR]
    assert [(problem.what, problem.suggestion) for problem in errors] == [
        ('there is no advice on "late hop"', "late hops")
    ]


def test_an_intention_without_a_reason_is_a_problem(plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(text_of("meant:\n  late hops:"))
    assert outcome.plan is None
    assert [problem.what for problem in outcome.problems] == ["late hops needs a reason"]


def test_an_intention_that_answers_to_nothing_is_a_warning(plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(text_of("meant:\n  late hops: they are lovely"))
    assert outcome.plan is not None
    assert [str(problem) for problem in outcome.problems if "need be meant" in problem.what] != []


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.key)
def test_a_row_is_fit_to_be_read(row: Any) -> None:
    """A sentence for each side, a reason, and whether it is common practice or has a source."""
    for words in (row.too_low, row.too_high):
        assert words == "" or re.fullmatch(r"[A-Z].+\.", words)
    assert row.too_low or row.too_high
    assert re.fullmatch(r"[A-Z].+(\.|:.+)", row.reason)
    assert row.standing


def test_rows_have_keys_of_their_own() -> None:
    assert len({row.key for row in ROWS}) == len(ROWS)
