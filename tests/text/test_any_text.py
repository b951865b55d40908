"""Nothing that a person can type ends in a traceback, and every problem lies within the file."""

import math
import os
import string
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from gristbook.problems import Problems
from gristbook.reading.tree import read_yaml
from gristbook.sheet.value import Value
from gristbook.text.book import read_book

RECIPES = sorted((Path(__file__).parents[2] / "recipes").glob("*.md"))
TEXTS = [path.read_text("utf-8") for path in RECIPES]
EXAMPLES = int(os.environ.get("GRISTBOOK_EXAMPLES", "150"))
"""How often each promise is tried; the suite's usual run is short."""

often = settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
letters = st.characters(codec="utf-8")
signs = st.sampled_from([*"-:#,'\"[]{}&*!|>%@`\t\n ±½°/.0123456789", "\u2028", "\x85", "\ufeff", "\x00", "⅓", "٣"])
numbers = st.one_of(
    st.integers(0, 10**12).map(str),
    st.floats(0, 1e12, allow_nan=False).map(lambda number: f"{number:f}"),
    st.sampled_from(
        ["0", "0.0", "1e400", "-1", "1/0", "0/1", "½", "nan", "inf", "9" * 40, "9" * 5000, "." + "0" * 400 + "1"]
    ),
)
WORDS = "kg,g,lb,oz,L,mL,gal,tsp,%,min,h,days,weeks,°C,F,IBU,°L,EBC,°P,packs,volumes,L/kg,L/h,m,ft,± 1,± 0,,± 1/0"
units = st.sampled_from(WORDS.split(","))
sizes = st.floats(-9, 9).map(lambda power: f"{10**power:.12f}".rstrip("0").rstrip("."))
"""Numbers of every size, none likelier than another."""


def holds(outcome: Any, text: str, book: str = "") -> None:
    """No problem points out of its file, the recipe's or the book's; no plan rests on an error, no number is none."""
    for problem in outcome.problems:
        lines = (book if problem.place.path == "book.yaml" else text).removeprefix("\ufeff").split("\n")
        assert 1 <= problem.place.line <= len(lines), problem
        assert 1 <= problem.place.column <= len(lines[problem.place.line - 1]) + 1, problem
        assert str(problem)
    assert outcome.plan is not None or any(problem.severity.value == "error" for problem in outcome.problems)
    for value in values(outcome.plan):
        assert math.isfinite(value.number), value
        assert math.isfinite(value.spread), value


def values(thing: Any) -> list[Value]:
    """Every value in a record of records, without their lineages."""
    if isinstance(thing, Value):
        return [thing]
    if isinstance(thing, tuple):
        return [value for member in thing for value in values(member)]
    if is_dataclass(thing):
        return [value for field in fields(thing) for value in values(getattr(thing, field.name))]
    return []


@given(text=st.text(letters) | st.lists(st.one_of(signs, letters)).map("".join))
@often
def test_any_text_at_all(text: str, plan_of: Callable[..., Any]) -> None:
    holds(plan_of(text), text)


@given(text=st.lists(st.one_of(signs, st.text(string.ascii_letters, max_size=5))).map("".join))
@often
def test_any_front_matter(text: str, plan_of: Callable[..., Any]) -> None:
    source = f"---\n{text}\n---\n"
    holds(plan_of(source), source)


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """A recipe of the demo book with a few letters or lines dropped, put in, moved or replaced."""
    text = draw(st.sampled_from(TEXTS))
    front = text.index("\n---\n") + 5
    for _ in range(draw(st.integers(1, 4))):
        lines = text[:front].split("\n")
        at = draw(st.integers(0, len(lines) - 1))
        way = draw(st.sampled_from(["drop line", "twice", "swap", "foreign", "letter", "letters", "number"]))
        if way == "drop line":
            del lines[at]
        elif way == "twice":
            lines.insert(at, lines[at])
        elif way == "swap":
            other = draw(st.integers(0, len(lines) - 1))
            lines[at], lines[other] = lines[other], lines[at]
        elif way == "foreign":
            lines.insert(at, draw(st.sampled_from(draw(st.sampled_from(TEXTS)).split("\n"))))
        else:
            line = lines[at]
            start = draw(st.integers(0, len(line)))
            stop = draw(st.integers(start, min(len(line), start + 4)))
            put = {"letter": signs, "letters": st.text(letters, max_size=3), "number": numbers}[way]
            lines[at] = line[:start] + draw(put) + line[stop:]
        mended = "\n".join(lines)
        text, front = mended + text[front:], len(mended)
    return text


@given(text=mutated())
@settings(often, max_examples=2 * EXAMPLES)
def test_any_slip_of_the_keyboard(text: str, plan_of: Callable[..., Any]) -> None:
    holds(plan_of(text), text)


@st.composite
def amounts(draw: st.DrawFn) -> str:
    """A recipe of which a few numbers, or a few numbers and their units, may be anything."""
    odd = draw(st.sets(st.integers(0, 44), min_size=1, max_size=3))
    asked = count()

    def some(usual: str) -> str:
        if next(asked) not in odd:
            return usual
        unit = usual.partition(" ")[2] if draw(st.integers(0, 2)) else draw(units)
        return f"{draw(sizes | numbers)} {unit}"

    return "\n".join(
        [
            "---",
            "title: A recipe",
            f"batch: {some('20 L')}",
            f"boil: {some('60 min')}",
            *([f"kettle: {some('12 L')}"] if draw(st.booleans()) else []),
            "malts:",
            f"  - {some('4 kg')} pale ale malt, {some('6 °L')}, {some('80 %')} extract, {some('4 %')} moisture",
            f"  - {some('200 g')} caramel malt 60, steep {some('30 min')} at {some('68 °C')}",
            "sugars:",
            f"  - {some('200 g')} golden syrup, {some('10 min')}",
            f"  - {some('200 g')} honey, into the fermenter",
            "extracts:",
            f"  - {some('500 g')} light dried malt extract, {some('25 IBU')} in {some('23 L')}",
            "hops:",
            f"  - {some('28 g')} Fuggle, {some('4.5 %')}, {some('60 min')}",
            f"  - {some('22 IBU')} Fuggle, {some('4.5 %')}, first wort",
            f"  - {some('20 g')} Fuggle, {some('4.5 %')}, stand {some('20 min')} at {some('80 °C')}",
            f"  - {some('20 g')} Fuggle, dry {some('3 days')}",
            "yeast:",
            f"  - {some('11 g')} american ale yeast, clean, dried, {some('75 %')}",
            "mash:",
            f"  - {some('67 °C')}, {some('60 min')}, {some('10 L')}",
            f"  - {some('72 °C')}, {some('10 min')}",
            "finings and spices:",
            f"  - {some('1 tsp')} irish moss, {some('10 min')}",
            "ferment:",
            f"  - {some('19 °C')}, {some('10 days')}",
            f"carbonation: {some('2.2 volumes')}, primed with table sugar",
            "expect:",
            f"  bitterness: {some('20 IBU ± 100')}",
            "---",
            "",
        ]
    )


@given(text=amounts())
@settings(often, max_examples=2 * EXAMPLES)
def test_any_amount_of_anything(text: str, plan_of: Callable[..., Any]) -> None:
    holds(plan_of(text), text)


SCALARS = st.one_of(numbers, st.text(letters, max_size=12), st.builds("{} {}".format, numbers, units))


@given(scalars=st.lists(st.tuples(st.text(string.ascii_lowercase, min_size=1, max_size=6), SCALARS), max_size=6))
@often
def test_any_scalars_of_a_table(scalars: list[tuple[str, str]]) -> None:
    source = "".join(f"{key}: {value}\n" for key, value in scalars)
    problems = Problems()
    read_yaml(source, "file", problems)
    lines = source.split("\n")
    for problem in problems:
        assert 1 <= problem.place.line <= len(lines)
        assert 1 <= problem.place.column <= len(lines[problem.place.line - 1]) + 1


BREWHOUSE = {
    "batch": "L",
    "efficiency": "%",
    "steep yield": "%",
    "boil-off": "L/h",
    "left in kettle": "L",
    "left in fermenter": "L",
    "absorption": "L/kg",
    "thickness": "L/kg",
    "grain": "°C",
    "tun": "L",
    "tun heat": "L",
    "kettle": "L",
    "altitude": "m",
}


@st.composite
def vessels(draw: st.DrawFn) -> dict[str, str]:
    """A few keys of a brewhouse with numbers of every size, now and then with anything at all."""
    keys = draw(st.sets(st.sampled_from(sorted(BREWHOUSE)), max_size=3))
    return {key: draw(st.one_of(sizes.map(f"{{}} {BREWHOUSE[key]}".format), SCALARS)) for key in sorted(keys)}


@given(vessel=vessels(), recipe=st.sampled_from(TEXTS))
@often
def test_any_brewhouse(
    vessel: dict[str, str], recipe: str, tmp_path_factory: pytest.TempPathFactory, plan_of: Callable[..., Any]
) -> None:
    folder = tmp_path_factory.mktemp("book")
    inside = "".join(f"    {key}: {value}\n" for key, value in vessel.items())
    text = f"title: A book\nbrewhouses:\n  mill:\n    batch: 20 L\n{inside}"
    (folder / "book.yaml").write_text(text, "utf-8", newline="\n")
    problems = Problems()
    book = read_book(folder, problems)
    for problem in problems:
        assert 1 <= problem.place.line <= text.count("\n") + 1
    if book is not None and not problems.errors():
        holds(plan_of(recipe, book.brewhouses), recipe, text)


@pytest.mark.parametrize(
    ("wrong", "right"),
    [
        ("1e400 kg pale ale malt", "4 kg pale ale malt"),
        ("9" * 400 + " kg pale ale malt", "4 kg pale ale malt"),
        ("0 kg pale ale malt", "4 kg pale ale malt"),
        ("999999999 kg pale ale malt", "4 kg pale ale malt"),
        ("10000 IBU Fuggle, 4.5 %, 60 min", "28 g Fuggle, 4.5 %, 60 min"),
        ("batch: 0 L", "batch: 20 L"),
        ("batch: 0.000001 L", "batch: 20 L"),
        ("batch: 999999999999 L", "batch: 20 L"),
        ("boil: 99999 min", "boil: 60 min"),
        ("carbonation: 999 volumes, keg", "carbonation: 2.2 volumes, keg"),
        ("99999 °C, 60 min", "67 °C, 60 min"),
    ],
)
def test_an_absurd_number_is_a_problem(wrong: str, right: str, plan_of: Callable[..., Any]) -> None:
    sound = (
        "---\ntitle: A recipe\nbatch: 20 L\nboil: 60 min\nmalts:\n  - 4 kg pale ale malt\nhops:\n"
        "  - 28 g Fuggle, 4.5 %, 60 min\nyeast:\n  - 11 g american ale yeast, clean, dried\nmash:\n  - 67 °C, 60 min\n"
        "ferment:\n  - 19 °C, 10 days\ncarbonation: 2.2 volumes, keg\n---\n"
    )
    assert plan_of(sound).problems == ()
    outcome = plan_of(sound.replace(right, wrong))
    holds(outcome, sound.replace(right, wrong))
    assert outcome.plan is None


def test_a_boil_of_no_minutes_is_a_boil(plan_of: Callable[..., Any]) -> None:
    """Hopped extract is often only dissolved: nothing is wrong with it."""
    text = (
        "---\ntitle: A recipe\nboil: 0 min\nextracts:\n  - 1.7 kg light liquid malt extract, 25 IBU in 23 L\nyeast:\n"
        "  - 11 g american ale yeast, clean, dried\n---\n"
    )
    outcome = plan_of(text)
    holds(outcome, text)
    assert outcome.plan is not None
