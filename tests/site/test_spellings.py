"""A time, a unit, a keyword means the same in any case, spacing and spelling that the reader knows, or it is an error.

Recipes are respelled at random and made again: figures, method and card have to come out as they were.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from pathlib import Path
from random import Random
from types import SimpleNamespace
from typing import Any

import pytest

from gristbook.model.book import Book
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Place, Problems
from gristbook.reading.quantity import NUMBER
from gristbook.reading.units import UNITS, spellings
from gristbook.sheet.value import Value
from gristbook.site.beer.brews import Brew
from gristbook.site.beer.card_page import card_page
from gristbook.site.beer.stamp import mark
from gristbook.site.pages import of_recipe
from gristbook.targets.hops.packets import packet_rows
from gristbook.targets.method.whole import steps
from gristbook.targets.plan import plan_recipe
from gristbook.text.book import read_book
from gristbook.text.recipe import read_recipe
from gristbook.text.values import Desk

DEMO = Path(__file__).parents[2] / "recipes"
TRIALS, SHORT, SEED = 2000, 60, 1823

EVERY_KEYWORD = """---
title: Every keyword
batch: 20 L
boil: 90 min
malts:
  - 3.5 kg pale ale malt, 3.5 °L, 80 % extract, 4.5 % moisture
  - 200 g caramel malt 60, steep 30 min at 68 °C
sugars:
  - 200 g honey, into the fermenter, 93 % fermentable
  - 100 g table sugar, 10 min, allergens: none
extracts:
  - 1 kg light liquid malt extract, 20 min, 25 IBU in 23 L
hops:
  - 20 g Fuggle, 4.5 % alpha, first wort, stored 30 weeks at 4 °C under vacuum, whole
  - 20 g Fuggle, 4.5 % alpha, stand 20 min from 95 °C to 75 °C
  - 20 g Fuggle, 4.5 % alpha, stand 20 min cooling from 95 °C to 75 °C in a room of 18 °C
  - 20 g Fuggle, 4.5 % alpha, dry 12 h
  - 20 g Fuggle, 4.5 % alpha, 60 min, HSI 0.35
yeast:
  - 2 packs american ale yeast, clean, liquid, 75 % attenuation
mash:
  - 52 °C, 15 min, 8 L
  - 67 °C, 60 min, decoction
water:
  - 2 g gypsum, in the mash
  - 3 mL lactic acid 88 %, in the mash
finings and spices:
  - 1/2 tsp irish moss, 10 min
  - 1 pod vanilla, 5 days
  - 12 g coriander seed, into the fermenter
  - 3 g ginger, in the kettle
  - 2 g yeast nutrient, with the yeast
  - 2 g chamomile, in the steep
  - 1 g cardamom, 1/2 h
  - 3 g gelatine, after fermentation, allergens: milk, egg
  - 2 g lemon peel, at packaging
ferment:
  - 19 °C, 10 days
  - 2 °C, 3 weeks
carbonation: 2.4 volumes, keg
---
"""

ONE_LINE = ("batch", "boil", "kettle", "carbonation")
NAMED = ("malts", "sugars", "extracts", "hops", "yeast", "water", "finings and spices")
NAMELESS = ("mash", "ferment")

OTHER_WORDS: dict[str, tuple[str, ...]] = {
    "into the fermenter": ("in the fermenter", "into fermenter", "to the fermenter"),
    "in the mash": ("into the mash", "in mash", "with the mash", "to the mash"),
    "in the kettle": ("into the kettle", "in kettle", "in the boil", "whole boil"),
    "in the steep": ("into the steep", "with the steep"),
    "with the yeast": ("with yeast",),
    "alpha": ("alpha acids", "alpha acid", "aa"),
    "dried": ("dry", "dried yeast", "dry yeast"),
    "liquid": ("liquid yeast",),
    "whole": ("whole hops",),
    "keg": ("in a keg",),
    "steep": ("steeped",),
    "dry": ("dry hop", "dry hopped"),
}
"""Other words for one keyword, which the reader knows."""

KEYWORD = re.compile(rf"\b(?:{'|'.join(OTHER_WORDS)})\b")
MEASURE = re.compile(rf"(?<![\w.])(?P<number>{NUMBER})\s*(?P<unit>{spellings(*UNITS)})(?![^\W\d_])")
CASES = (str, str.lower, str.upper, str.title, str.swapcase)


def respelled(text: str, chance: Random) -> str:
    """A recipe's file with its times, units and keywords in other letters, blanks and words."""
    lines, section = [], ""
    for line in text.split("\n"):
        key = re.match(r"([a-z ]+):", line)
        section = key[1] if key else section
        head = re.match(rf"(?:{'|'.join(ONE_LINE)}):\s*" if key else r"\s+-\s+", line)
        if head and section in (*ONE_LINE, *NAMED, *NAMELESS):
            line = head[0] + ", ".join(_parts(line[head.end() :], section in NAMED, chance))
        lines.append(line)
    return "\n".join(lines)


def _parts(line: str, named: bool, chance: Random) -> Iterator[str]:
    first, *rest = line.split(", ")
    amount = MEASURE.match(first) if named else None
    if amount:
        yield _measure(amount, chance) + _blank(chance) + first[amount.end() :].strip()
    else:
        yield first if named else _part(first, chance)
    for part in rest:
        yield _part(part, chance) if not _is_name(part) else part


def _is_name(part: str) -> bool:
    """Whether a part belongs to the name before it, as a yeast's second word."""
    return part in ("attenuative", "clean", "highly flocculent")


def _part(part: str, chance: Random) -> str:
    part = KEYWORD.sub(lambda found: chance.choice((found[0], *OTHER_WORDS[found[0]])), part)
    part = MEASURE.sub(lambda found: _measure(found, chance), part)
    part = re.sub(r" ", lambda _: _blank(chance), part)
    return chance.choice(CASES)(part)


def _measure(found: re.Match[str], chance: Random) -> str:
    """A number with its unit, spelled in another way."""
    number, word = _otherwise(found["number"], found["unit"], chance)
    words = next(words for words in (unit.words for unit in UNITS.values()) if word in words)
    words = words if word not in UNITS["piece"].words else (word,)  # pods are no sticks
    gap, other = chance.choice(("", " ", "  ", "\N{NO-BREAK SPACE}")), chance.choice(CASES)(chance.choice(words))
    return f"{number}{gap if other != '#' else ''}{other}"  # behind a blank YAML has a remark begin there


def _otherwise(number: str, unit: str, chance: Random) -> tuple[str, str]:
    """The same time in other units now and then, the same number in other signs."""
    if chance.random() < 0.3:
        if unit == "min" and number.isdigit() and int(number) % 30 == 0 and int(number) > 0:
            return chance.choice(((f"{int(number) / 60:g}", "hours"), (f"{int(number)}.0", "min")))
        if unit == "days" and int(number) % 7 == 0:
            return f"{int(number) // 7}", "weeks"
        if unit == "days" and int(number) < 4:
            return f"{24 * int(number)}", "h"
    signs = {"1/2": ("½", "1/2", "0.5", ".5", "1\N{FRACTION SLASH}2")}
    return chance.choice(signs.get(number, (number,))), unit


def _blank(chance: Random) -> str:
    return chance.choice((" ", " ", "  ", "\N{NO-BREAK SPACE}"))


@pytest.fixture(scope="module")
def told(pantry: Pantry) -> Callable[[str], Any]:
    """`told(text)`: figures, method and card of a recipe in the demo book, or its errors as a set of strings."""
    read = read_book(DEMO, Problems())
    assert read is not None
    book: Book = read
    shelves = Pantry.load(DEMO / "pantry", Problems())

    def made(text: str) -> Any:
        problems = Problems()
        recipe = read_recipe(text, "again.md", book.brewhouses, book.brewhouse, Desk(shelves, problems))
        plan = plan_recipe(recipe, replace(book, recipes=(recipe,)), problems) if recipe else None
        if plan is None:
            return {str(problem) for problem in problems.errors()}
        method, hops = steps(plan), packet_rows(plan)
        unlinked: Any = SimpleNamespace(page=(None, (SimpleNamespace(anchor=lambda value: ""),)))
        brew = Brew(plan, method, hops, (), unlinked, 0, mark(plan, method), of_recipe("again"))
        warnings = [problem.what for problem in problems]
        packets = [row.packets for row in brew.packets]
        return _plain((plan.named, method, replace(card_page(brew), brew=None), packets, len(warnings)))

    return made


def _plain(thing: Any) -> Any:
    """Numbers, units and words alone, to be compared: not who wrote them, nor where."""
    if isinstance(thing, Value):
        return float(f"{thing.number:.9g}"), thing.unit
    if isinstance(thing, Place):
        return None
    if isinstance(thing, dict):
        return {name: _plain(value) for name, value in thing.items()}
    if isinstance(thing, tuple | list):
        return tuple(_plain(part) for part in thing)
    if is_dataclass(thing):
        return {field.name: _plain(getattr(thing, field.name)) for field in fields(thing)}
    return thing.value if isinstance(thing, Enum) else thing


def recipes() -> list[str]:
    return [path.read_text("utf-8") for path in sorted(DEMO.glob("*.md"))] + [EVERY_KEYWORD]


def held(told: Callable[[str], Any], trials: int) -> None:
    chance, texts = Random(SEED), recipes()
    first = {text: told(text) for text in texts}
    assert not any(isinstance(said, set) for said in first.values())
    refused = []
    for trial in range(trials):
        text = texts[trial % len(texts)]
        other = respelled(text, chance)
        again = told(other)
        if isinstance(again, set):
            refused += [(again, other)]
        else:
            assert again == first[text], other
    assert refused == [], "every spelling here is one that the reader knows"


def test_another_case_spacing_or_spelling_is_the_same_beer(told: Callable[[str], Any]) -> None:
    held(told, SHORT)


@pytest.mark.slow
def test_two_thousand_other_spellings_are_the_same_beer(told: Callable[[str], Any]) -> None:
    held(told, TRIALS)


@pytest.mark.parametrize(
    ("words", "others"),
    [
        ("1/2 tsp irish moss, 10 min", "1/2 tsp irish moss, 11 min"),
        ("in the mash", "in the kettle"),
        ("into the fermenter\n", "after fermentation\n"),
        ("5 days", "4 days"),
        ("allergens: milk, egg", "allergens: milk"),
        ("19 °C", "19.1 °C"),
    ],
)
def test_another_meaning_would_be_seen(words: str, others: str, told: Callable[[str], Any]) -> None:
    assert words in EVERY_KEYWORD
    assert told(EVERY_KEYWORD.replace(words, others)) != told(EVERY_KEYWORD)
