"""What poisons is stopped wherever it stands among the ingredients, by its name; what only sounds like it is not."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from gristbook.pantry import poisons
from gristbook.pantry.pantry import Pantry
from gristbook.pantry.poisons import poison_in
from gristbook.problems import Problems, Severity

BEER = {
    "title": "title: A beer",
    "malts": "malts:\n  - 4 kg pale ale malt",
    "yeast": "yeast:\n  - 11 g american ale yeast, dried",
    "mash": "mash:\n  - 67 °C, 60 min",
}


def told(plan_of: Callable[..., Any], section: str, line: str, **more: str) -> list[tuple[Severity, str]]:
    lines = [*(text for key, text in BEER.items() if key != section), f"{section}:\n  - {line}", *more.values()]
    outcome = plan_of("\n".join(["---", *lines, "---", "Never clean with bleach. Yew grows by the brewhouse.", ""]))
    return [(problem.severity, str(problem)) for problem in outcome.problems]


@pytest.mark.parametrize(
    ("section", "line", "name"),
    [
        ("finings and spices", "5 g dried foxglove leaves, 10 min", "foxglove"),
        ("finings and spices", "20 mL household bleach, at packaging", "bleach"),
        ("finings and spices", "1 tsp Sodium Percarbonate, in the kettle", "percarbonate"),
        ("finings and spices", "10 g Lily-of-the-Valley, 3 days", "lily of the valley"),
        ("finings and spices", "{amount: 10 g, name: yew berries, time: 5 min}", "yew"),
        ("finings and spices", "3 mL peracetic acid, into the fermenter", "peracetic"),
        ("finings and spices", "5 mL washing-up liquid, in the kettle", "washing up liquid"),
        ("malts", "200 g hemlock, steep 30 min at 68 °C", "hemlock"),
        ("sugars", "100 g sugar of lead", "sugar of lead"),
        ("hops", "20 g oleander, 4.5 % alpha, 60 min", "oleander"),
        ("water", "5 g caustic soda", "caustic"),
        ("yeast", "5 g ergot, dried", "ergot"),
    ],
)
def test_a_poison_is_an_error_that_names_it(section: str, line: str, name: str, plan_of: Callable[..., Any]) -> None:
    found = [words for severity, words in told(plan_of, section, line) if severity is Severity.ERROR]
    assert any(f"error: {name}: " in words and "none of it in a beer" in words for words in found), found


@pytest.mark.parametrize("line", ["5 g wormwood, 10 min", "2 g tansy, 5 min"])
def test_a_herb_that_is_brewed_with_by_the_pinch_is_a_warning(line: str, plan_of: Callable[..., Any]) -> None:
    found = told(plan_of, "finings and spices", line)
    assert any(severity is Severity.WARNING and "very little of it" in words for severity, words in found)
    assert not [words for severity, words in found if severity is Severity.ERROR]


@pytest.mark.parametrize(
    "name",
    [
        *("bleached wheat flour", "ground ivy", "soap bark", "horseradish", "elderflower", "elderberries", "chestnut"),
        *(
            "iodised salt",
            "diammonium phosphate",
            "limes",
            "slaked lime",
            "baking soda",
            "nutmeg",
            "bog myrtle",
            "yarrow",
        ),
        *("hemlock spruce tips", "eastern hemlock needles", "rhubarb", "holly honey", "nightshade-free", "lemon peel"),
        *(
            "Yewdale yeast nutrient",
            "lactic acid",
            "phosphoric acid",
            "almond",
            "cherries",
            "juniper berries",
            "heather",
        ),
    ],
)
def test_what_only_sounds_like_poison_is_none(name: str) -> None:
    assert poison_in(name) is None


def test_no_name_of_our_own_pantry_is_a_poison() -> None:
    pantry = Pantry.load(None, Problems())
    shelves = (pantry.malts, pantry.sugars, pantry.extracts, pantry.hops, pantry.yeasts, pantry.finings, pantry.salts)
    for shelf in (*shelves, pantry.acids, pantry.waters, pantry.styles):
        for record in shelf.records:
            for name in (record.name, *record.also):
                assert poison_in(name) is None, name


def test_a_name_is_compared_only_with_poisons_that_begin_with_one_of_its_words(monkeypatch: pytest.MonkeyPatch) -> None:
    compared: list[object] = []
    monkeypatch.setattr(poisons, "_place_of", lambda known, words: compared.append(known))
    poison_in("pale ale malt")
    assert compared == []
    poison_in("dried foxgloves")
    assert ("foxglove",) in compared


def test_prose_may_speak_of_poison(plan_of: Callable[..., Any]) -> None:
    assert not [words for severity, words in told(plan_of, "malts", "4 kg pale ale malt") if "poison" in words]


def test_an_author_s_own_pantry_does_not_hold_poison(tmp_path: Path) -> None:
    (tmp_path / "finings.yaml").write_text("- name: Foxglove\n  kind: spice\n  purpose: a bitter\n", "utf-8")
    problems = Problems()
    pantry = Pantry.load(tmp_path, problems)
    assert "foxglove: poison to the heart" in "\n".join(map(str, problems.errors()))
    assert not [record for record in pantry.finings.records if record.name == "Foxglove"]
