"""What a recipe's line says besides is shown wherever the thing is shown: page, card, data and shopping list."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

import pytest
from made_site import make_site

from gristbook.charts.caches import FrameCache
from gristbook.problems import Problems
from gristbook.targets.buying.shopping import shopping
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

from .conftest import pages_of
from .test_odd_recipes import BOOK

OF_A_THING = {
    "from the mill next door": "malts: 4 kg pale ale malt, from the mill next door",
    "very dark": "",
    "the last of the bag": "sugars: 100 g table sugar, the last of the bag",
    "from the garden": "fruit: 1 kg sour cherries (from the garden), 10 days",
    "against lumps": "extracts: 200 g light dried malt extract, against lumps",
    "this summer's": "hops: 28 g Fuggle (4.5 % alpha, this summer's), 60 min",
    "came with the kit": "yeast: 11 g american ale yeast (came with the kit), dried, made 2026-01-31",
    "from the tin": "water: 3 g gypsum, from the tin",
    "from the shelf": "finings and spices: 1 tsp irish moss, 10 min, from the shelf",
}
OF_A_STEP = {
    "wrapped in a blanket": "mash: 67 °C, 60 min, wrapped in a blanket",
    "under the stairs": "ferment: 19 °C, 14 days, under the stairs",
    "from the crate": "carbonation: 2.2 volumes, primed with table sugar, from the crate",
}


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory, cache: FrameCache) -> Mapping[str, str]:
    """What each place shows of a recipe whose every line has a note."""
    folder: Path = tmp_path_factory.mktemp("noted")
    lines = "\n".join(line for line in (*OF_A_THING.values(), *OF_A_STEP.values()) if line)
    lines = lines.replace("\nsugars", "\n  - 200 g caramel malt 60 (very dark, 60 °L)\nsugars")
    lines = lines.replace("malts: ", "malts:\n  - 300 g floor-malted bohemian pilsner malt\n  - ", 1)
    (folder / "book.yaml").write_text(BOOK + "chapters:\n  - title: All\n    recipes: noted\n", encoding="utf-8")
    (folder / "noted.md").write_text(
        f"---\ntitle: Noted\ndate: 2026-02-21\nbatch: 20 L\n{lines}\n---\n\nWords.\n", encoding="utf-8"
    )
    problems = Problems()
    book = read_book(folder, problems)
    assert book is not None
    plans = plan_book(book, problems)
    files = make_site(book, plans, problems, cache)
    assert not problems.errors(), [str(problem) for problem in problems]
    told = [problem.what for problem in problems if "as a note" in problem.what]
    assert len(told) == len(OF_A_THING) + len(OF_A_STEP)
    pages = {name: page.get_text() for name, page in pages_of(files).items()}
    data = json.loads(next(text for name, text in files.items() if name.startswith("noted") and name.endswith("json")))
    plan = next(iter(plans)) if not isinstance(plans, Mapping) else next(iter(plans.values()))
    return {
        "page": pages["noted.html"],
        "card": pages["noted/card.html"],
        "method": " ".join(step["words"] for step in data["method"]),
        "chapter": next(page for name, page in pages.items() if "chapter" in name),
        "data of things": json.dumps(data["ingredients"], ensure_ascii=False),
        "data of steps": json.dumps(data["not reckoned"]),
        "list": "; ".join(purchase.note for purchase in shopping([plan])),
    }


def straight(words: str) -> str:
    return words.replace("\u2019", "'").replace("\xa0", " ")


@pytest.mark.parametrize("note", OF_A_THING)
@pytest.mark.parametrize("place", ["page", "card", "chapter", "data of things", "list"])
def test_the_note_of_a_thing_stands_wherever_the_thing_does(shown: Mapping[str, str], place: str, note: str) -> None:
    assert note in straight(shown[place])


@pytest.mark.parametrize("note", OF_A_STEP)
@pytest.mark.parametrize("place", ["page", "card", "data of steps"])
def test_the_note_of_a_step_is_told_as_not_reckoned(shown: Mapping[str, str], place: str, note: str) -> None:
    assert note in straight(shown[place])


def test_an_authors_own_name_and_the_age_of_a_yeast_are_shown_wherever_it_is(shown: Mapping[str, str]) -> None:
    """From 31 January to 21 February it is 21 days."""
    for place in ("page", "card", "chapter", "data of things", "list"):
        assert "“floor-malted bohemian pilsner malt”" in straight(shown[place]), place
        assert "21 days old" in straight(shown[place]), place
    assert "american ale yeast (21 days old)" in straight(shown["method"]).casefold()
