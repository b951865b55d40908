"""A book of one beer, and batches of it as an author writes them: the plan frozen, and what was measured."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from gristbook.model.batch import Batch
from gristbook.model.book import Book
from gristbook.model.figures import words_of
from gristbook.problems import Problem, Problems
from gristbook.sheet.doubts import NINE_IN_TEN
from gristbook.sheet.value import Value
from gristbook.targets.batches.frozen import frozen_plan
from gristbook.targets.figures import Plan
from gristbook.targets.plan import plan_book
from gristbook.text.book import read_book

BOOK = """\
title: A book of one beer
address: https://quillmere.example/one/
brewhouses:
  hall:
    efficiency: from batches, 74 % ± 4
    boil-off: from batches, 3 L/h ± 0.5
    left in kettle: from batches
    attenuation: from batches
"""

RECIPE = """\
---
title: Reed Bank Bitter
batch: 20 L
boil: 60 min
malts:
  - 3.6 kg pale ale malt
  - 200 g caramel malt 60
hops:
  - 30 g Fuggle, 4.5 % alpha, 60 min
yeast:
  - 11 g english ale yeast, attenuative, dried
mash:
  - 67 °C, 60 min
ferment:
  - 19 °C, 10 days
carbonation: 2.2 volumes, primed with table sugar
---
"""

MEASURED: Mapping[str, str] = {
    "mash temperature": "66.5 °C",
    "first runnings": "1.086 at 30 °C",
    "before the boil": "25.5 L at 1.022, 60 °C",
    "boiled": "60 min",
    "end of the boil": "22 L hot, 1.040",
    "left in kettle": "1.5 L",
    "into the fermenter": "19.8 L",
    "original gravity": "1.039 at 24 °C",
    "pitched": "18 °C",
    "readings": '["2026-03-17, 1.015, 19 °C", "2026-03-24, 1.010, 19 °C"]',
    "final gravity": "1.010 at 20 °C",
    "left in fermenter": "1.2 L",
    "packaged": "2026-03-28, 18.5 L, 95 g table sugar",
    "warmest storage": "24 °C",
}
"""An ordinary brew, as it was written down."""


def frozen(value: Value) -> str:
    """A figure of a plan as a batch keeps it."""
    half = NINE_IN_TEN * value.spread
    unit = "" if value.unit == "SG" else f" {value.unit}"
    return f"{value.number:.6g}{f' ± {half:.3g}' if half else ''}{unit}"


class Desk:
    """A book's folder that batches are written into; what was read is read anew each time."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        (folder / "book.yaml").write_text(BOOK, encoding="utf-8")
        (folder / "bitter.md").write_text(RECIPE, encoding="utf-8")
        self.plan = self.plans()[0]
        self.kept = frozen_plan(self.plan)

    def book(self) -> Book:
        """The book as it stands."""
        book = read_book(self.folder, self.problems)
        assert book is not None, [str(it) for it in self.problems]
        return book

    @property
    def problems(self) -> Problems:
        """A collector for whoever does not look at problems."""
        return Problems()

    def plans(self) -> tuple[Plan, ...]:
        """The plans as they are before anything was learned."""
        return plan_book(self.book(), Problems())

    def write(
        self,
        measured: Mapping[str, str],
        *,
        day: str = "2026-03-14",
        plan: Mapping[str, str] | None = None,
        more: str = "",
        hops: str = "30 g Fuggle, 4.5 % alpha, 60 min",
    ) -> None:
        """A batch of the day, with the plan's own figures where no others are given."""
        kept = {words_of(name): frozen(value) for name, value in self.kept.items()} | dict(plan or {})
        figures = "\n".join(f"    {name}: {figure}" for name, figure in kept.items() if figure)
        lines = "\n".join(f"  {name}: {line}" for name, line in measured.items())
        (self.folder / "bitter").mkdir(exist_ok=True)
        (self.folder / "bitter" / f"{day}.md").write_text(
            f"---\nbrewed: {day}\nbrewhouse: hall\nyeast: english ale yeast, attenuative\n{more}recipe:\n"
            f"  title: Reed Bank Bitter\n  batch: 20 L\n  hops:\n    - {hops}\n  plan:\n{figures}\nmeasured:\n{lines}\n"
            "---\nIt rained.\n",
            encoding="utf-8",
        )

    def batch(self, measured: Mapping[str, str], **how: object) -> Batch:
        """The batch that these readings make, and no other in the book."""
        for old in (self.folder / "bitter").glob("*.md"):
            old.unlink()
        self.write(measured, **how)  # type: ignore[arg-type]
        problems = Problems()
        book = read_book(self.folder, problems)
        assert book is not None
        assert book.batches, [str(it) for it in problems]
        return book.batches[0]


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A book to write batches into."""
    return Desk(tmp_path)


@pytest.fixture
def measured() -> dict[str, str]:
    """An ordinary brew, to change."""
    return dict(MEASURED)


@pytest.fixture
def said() -> Callable[[Problems], list[str]]:
    """Problems as words."""

    def words(problems: Problems) -> list[str]:
        found: list[Problem] = list(problems)
        return [str(it) for it in found]

    return words
