"""What an author writes of a batch and what is said of it: the cases stand in `batch-cases/*.md`, as those of recipes.

What begins with `---` is a whole file; anything else is some lines of a front matter, laid over a sound batch. Nothing
between the last two points means that the batch can be read as it stands.
"""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from gristbook.problems import Problems
from gristbook.text.batch import read_batch
from gristbook.text.values import Desk

CASE = re.compile(r"^(?P<title>.+)\n\.\n(?P<written>(?:.*\n)*?)\.\n(?P<said>(?:.*\n)*?)\.$", re.MULTILINE)
SOUND = {
    "brewed": "brewed: 2026-03-14",
    "brewhouse": "brewhouse: mill",
    "yeast": "yeast: english ale yeast, attenuative",
    "recipe": "recipe:\n  title: A sound recipe\n  batch: 20 L\n  plan:\n    original gravity: 1.0432 ± 0.0021",
    "measured": "measured:\n  original gravity: 1.041",
}
PATH = "a-recipe/2026-03-14.md"
LOG = "time,gravity,temperature\n2026-03-15 08:00,1.040,18.5\n2026-03-16 08:00,1.030,19.5\n"


def cases() -> Iterator[Any]:
    for file in sorted(Path(__file__).with_name("batch-cases").glob("*.md")):
        text = file.read_text("utf-8")
        found = list(CASE.finditer(text))
        assert 3 * len(found) == text.splitlines().count("."), f"a point is missing in {file.name}"
        for case in found:
            yield pytest.param(case["written"], case["said"], id=f"{file.stem}: {case['title']}")


@pytest.mark.parametrize(("written", "said"), list(cases()))
def test_what_is_written_of_a_batch_gives_these_problems_and_no_others(
    written: str, said: str, pantry: Any, tmp_path: Path
) -> None:
    (tmp_path / "a-recipe").mkdir()
    (tmp_path / "a-recipe" / "2026-03-14.csv").write_text(LOG, "utf-8")
    whole = written.startswith("---")
    rest = [lines for key, lines in SOUND.items() if not re.search(rf"^{key}:", written, re.MULTILINE)]
    text = written if whole else "\n".join(["---", written.rstrip("\n"), *rest, "---", ""])
    problems = Problems()
    batch = read_batch(text, PATH, tmp_path, {"mill": None, "stove": None}, Desk(pantry, problems))
    above = 0 if whole else 1
    lines = [
        f"{problem.place.line - above}:{problem.place.column}: {str(problem).removeprefix(f'{problem.place}: ')}"
        for problem in problems
    ]
    patterns = [re.escape(line).replace("…", ".+") for line in said.splitlines()]
    assert len(lines) == len(patterns), lines
    for line, pattern in zip(lines, patterns, strict=True):
        assert re.fullmatch(pattern, line), line
    assert (batch is None) == any(": error: " in line for line in lines)
