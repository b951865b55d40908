"""What an author writes and what is said of it: the cases stand in `cases/*.md`, so that adding one needs no Python.

A case is a title, a line with a point, what is written, a line with a point, every problem, a line with a point. What
begins with `---` is a whole file; anything else is some lines of a front matter, laid over a sound recipe, and the
problems count its own lines. An `…` in what is said stands for anything, so that no figure is pinned here. Nothing
between the last two points means that the recipe can be brewed as it stands. Advice on the balance of the beer, which
an author may mean otherwise, is held elsewhere and left out here.
"""

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from gristbook.reading.fields import field_called
from gristbook.text.vocabulary import RECIPE

CASE = re.compile(r"^(?P<title>.+)\n\.\n(?P<written>(?:.*\n)*?)\.\n(?P<said>(?:.*\n)*?)\.$", re.MULTILINE)
ADVICE = "as usual, or meant: "
SOUND = {
    "title": "title: A sound recipe",
    "batch": "batch: 20 L",
    "malts": "malts:\n  - 4 kg pale ale malt",
    "hops": "hops:\n  - 28 g Fuggle, 4.5 % alpha, 60 min",
    "yeast": "yeast:\n  - 11 g american ale yeast, clean, dried",
    "mash": "mash:\n  - 67 °C, 60 min",
    "ferment": "ferment:\n  - 19 °C, 10 days",
    "carbonation": "carbonation: 2.2 volumes, primed with table sugar",
}


def cases() -> Iterator[Any]:
    for file in sorted(Path(__file__).with_name("cases").glob("*.md")):
        text = file.read_text("utf-8")
        found = list(CASE.finditer(text))
        assert 3 * len(found) == text.splitlines().count("."), f"a point is missing in {file.name}"
        for case in found:
            yield pytest.param(case["written"], case["said"], id=f"{file.stem}: {case['title']}")


@pytest.mark.parametrize(("written", "said"), list(cases()))
def test_what_is_written_gives_these_problems_and_no_others(
    written: str, said: str, plan_of: Callable[..., Any]
) -> None:
    whole = written.startswith("---")
    fields = (field_called(RECIPE, key) for key in re.findall(r"^([^\s:][^:\n]*):", written, re.MULTILINE))
    given = {field.name for field in fields if field}
    rest = [lines for key, lines in SOUND.items() if key not in given]
    outcome = plan_of(written if whole else "\n".join(["---", written.rstrip("\n"), *rest, "---", ""]))
    problems = [problem for problem in outcome.problems if not problem.expected.startswith(ADVICE)]
    shown = [str(problem).removeprefix(f"{problem.place}: ") for problem in problems]
    above = 0 if whole else 1
    lines = [
        f"{problem.place.line - above}:{problem.place.column}: {words}"
        for problem, words in zip(problems, shown, strict=True)
    ]
    patterns = [re.escape(line).replace("…", ".+") for line in said.splitlines()]
    assert len(lines) == len(patterns), lines
    for line, pattern in zip(lines, patterns, strict=True):
        assert re.fullmatch(pattern, line), line
    assert (outcome.plan is None) == any(words.startswith("error") for words in shown)
