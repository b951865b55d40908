"""Thirty unsound recipes are spoken to at the line of the fault, and thirty sound ones are left nearly in peace.

A recipe is the plain one with some of its sections written otherwise: `section = line; line`. In `unsound.txt` it also
says by which words the line of the fault is known, and what is said there. Both lists were written before the rows.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from gristbook.targets.advice.judgement import judgement

HERE = Path(__file__).parent
PLAIN = {
    "style": "american pale ale",
    "batch": "20 L",
    "boil": "60 min",
    "malts": "4.3 kg pale two-row malt; 200 g caramel malt 40",
    "hops": "32 g Perle, 7 % alpha, 60 min; 40 g Cascade, 6 % alpha, 5 min",
    "yeast": "13 g american ale yeast, clean, dried",
    "mash": "66 °C, 60 min",
    "ferment": "18 °C, 12 days",
    "carbonation": "2.4 volumes, keg",
}
ONE_LINE = ("style", "batch", "boil")


def rows(name: str) -> list[dict[str, str]]:
    head, *lines = (HERE / name).read_text("utf-8").splitlines()
    keys = head.split(" | ")
    return [dict(zip(keys, line.split(" | "), strict=True)) for line in lines]


def written(row: dict[str, str]) -> str:
    """The recipe as its author would write it."""
    sections, section = dict(PLAIN), ""
    for part in row["changes"].split("; "):
        name, equals, line = part.partition(" =")
        if equals:
            section, sections[name] = name, line.strip()
        else:
            sections[section] += f"; {part}"
    text = ["---", f"title: {row['name'].replace('-', ' ').title()}"]
    for name, lines in sections.items():
        one = name in ONE_LINE
        text += (
            [f"{name}: {lines}"] if one else [f"{name}:", *(f"  - {line}" for line in lines.split("; "))] * bool(lines)
        )
    return "\n".join([*text, "---", ""])


def spoken_to(row: dict[str, str], plan_of: Callable[..., Any]) -> bool:
    text = written(row)
    (line,) = (number for number, words in enumerate(text.splitlines(), 1) if row["at"] in words)
    problems = [problem for problem in plan_of(text).problems if problem.place.line == line]
    return any(row["says"] in f"{problem.what} {problem.expected}" for problem in problems)


def test_the_lists_are_as_long_as_the_bar_says() -> None:
    assert (len(rows("unsound.txt")), len(rows("sound.txt"))) == (30, 30)


@pytest.mark.parametrize("row", rows("unsound.txt"), ids=lambda row: row["name"])
def test_an_unsound_recipe_is_spoken_to_at_its_fault(row: dict[str, str], plan_of: Callable[..., Any]) -> None:
    assert spoken_to(row, plan_of), [str(problem) for problem in plan_of(written(row)).problems]


@pytest.mark.parametrize("row", rows("sound.txt"), ids=lambda row: row["name"])
def test_of_a_sound_recipe_at_most_two_sentences_are_said(row: dict[str, str], plan_of: Callable[..., Any]) -> None:
    outcome = plan_of(written(row))
    assert outcome.plan is not None, [str(problem) for problem in outcome.problems]
    said = [point.words for point in judgement(outcome.plan)]
    assert len(said) <= 2, said
    assert len(outcome.problems) <= 2, [str(problem) for problem in outcome.problems]
