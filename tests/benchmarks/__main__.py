"""`python -m tests.benchmarks`: how long Gristbook takes, beside what it should take and what the least would take.

Each row of the table comes from a few steps. The steps of one repetition follow one another, a first build before the
second, and medians are taken over all repetitions.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import shutil
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from .made_book import lay
from .measured import Ran, measured

ROOT = Path(__file__).parents[2]
Medians = dict[str, Ran]


class Scene:
    """Folders to build in, and Gristbook called there with a cache of its own."""

    def __init__(self, folder: Path, many: int, few: int) -> None:
        self.folder, self.cache = folder, folder / "cache"
        self.many, self.few, self.demo = folder / "many", folder / "few", ROOT / "recipes"
        lay(self.many, many)
        lay(self.few, few)
        self.env = {**os.environ, "GRISTBOOK_CACHE": str(self.cache), "PYTHONPYCACHEPREFIX": str(folder / "compiled")}
        self.env.pop("PYTHONDONTWRITEBYTECODE", None)  # an installed package has been compiled
        self.call("figures", self.recipe(self.demo))
        self.build(self.demo)

    def call(self, *words: object) -> Ran:
        return measured([sys.executable, "-m", "gristbook", *map(str, words)], self.env)

    def site(self, book: Path) -> Path:
        return self.folder / f"site of {book.name}"

    def build(self, book: Path) -> Ran:
        return self.call("build", book, "--out", self.site(book))

    def first(self, book: Path) -> Ran:
        """Built with nothing kept and nothing there."""
        self.forget(self.site(book))
        return self.build(book)

    def edit(self, book: Path) -> Ran:
        """Built after a word more in one recipe, which is taken out again."""
        path = self.recipe(book)
        text = path.read_text("utf-8")
        path.write_text(f"{text}\nOne word more.\n", encoding="utf-8")
        ran = self.build(book)
        path.write_text(text, encoding="utf-8")
        return ran

    def recipe(self, book: Path) -> Path:
        found = sorted(book.glob("*.md"))
        return found[len(found) // 2]

    def first_check(self) -> Ran:
        self.forget()
        return self.call("check", self.many)

    def yardstick(self, kind: str) -> Ran:
        site, listed, out = self.site(self.many), self.folder / "pages.json", self.folder / "yardstick"
        if not listed.exists():
            pages = [
                (path.relative_to(site).as_posix(), path.read_bytes()) for path in site.rglob("*") if path.is_file()
            ]
            listed.write_text(json.dumps([(name, len(text), text.count(b"\n")) for name, text in pages]))
        self.forget(out)
        return measured(
            [
                sys.executable,
                str(Path(__file__).with_name("yardstick.py")),
                kind,
                str(self.many),
                str(listed),
                str(out),
            ],
            self.env,
        )

    def forget(self, *more: Path) -> None:
        for path in (self.cache, *more):
            shutil.rmtree(path, ignore_errors=True)


STEPS: dict[str, tuple[Callable[[Scene], Ran], str]] = {
    "few, first": (lambda on: on.first(on.few), ""),
    "few, an edit": (lambda on: on.edit(on.few), "few, first"),
    "demo, first": (lambda on: on.first(on.demo), ""),
    "first check": (Scene.first_check, ""),
    "check again": (lambda on: on.call("check", on.many), "first check"),
    "first": (lambda on: on.first(on.many), ""),
    "again": (lambda on: on.build(on.many), "first"),
    "an edit": (lambda on: on.edit(on.many), "first"),
    "figures": (lambda on: on.call("figures", on.recipe(on.many)), "first"),
    "naive": (lambda on: on.yardstick("naive"), "first"),
    "bytes": (lambda on: on.yardstick("bytes"), "first"),
}
"""What is measured, in this order, and what has to be done before it."""

ELSEWHERE = {"few, first", "few, an edit", "demo, first"}
"""Steps on another book than the yardsticks'."""


@dataclass(frozen=True, slots=True)
class Row:
    """A line of the table: what, the steps it comes from, the figure of it that has a bar, the bar, and its unit."""

    name: str
    what: str
    steps: tuple[str, ...]
    figure: Callable[[Medians], float]
    bar: float
    unit: str


def rows(many: int, few: int) -> tuple[Row, ...]:
    def wall(step: str, told: Medians) -> float:
        return told[step].wall

    def growth(told: Medians) -> float:
        return told["first"].processor / many / (told["few, first"].processor / few)

    def clocked(name: str, what: str, step: str, bar: float) -> Row:
        return Row(name, what, (step,), partial(wall, step), bar, "s")

    return (
        Row(
            "naive",
            f"first build of {many:,}, processor, to the naive script's",
            ("first", "naive", "bytes"),
            lambda told: told["first"].processor / told["naive"].processor,
            3,
            "×",
        ),
        Row(
            "together",
            f"first build of {many:,}, clock, to its processor time",
            ("first",),
            lambda told: told["first"].wall / told["first"].processor,
            0.65,
            "×",
        ),
        clocked("demo", "first build of the demo", "demo, first", 4),
        clocked("again", f"build of {many:,} again, nothing changed", "again", 0.2),
        clocked("edit-few", f"build of {few:,} after one recipe's edit", "few, an edit", 0.6),
        clocked("edit", f"build of {many:,} after one recipe's edit", "an edit", 1),
        Row("memory", f"first build of {many:,}, memory", ("first",), lambda told: told["first"].memory, 400, "MB"),
        Row(
            "growth", f"a recipe's processor time, of {few:,} to of {many:,}", ("first", "few, first"), growth, 1.1, "×"
        ),
        clocked("figures", f"figures of one recipe of {many:,}", "figures", 0.4),
        clocked("check", f"check of {many:,}, nothing kept", "first check", 6),
        clocked("check-again", f"check of {many:,} again", "check again", 0.5),
    )


def asked_of(every: Sequence[Row], names: str) -> list[Row]:
    known = {row.name: row for row in every}
    return [known[name] for name in names.split(",")] if names else list(every)


def repeated(scene: Scene, steps: set[str], times: int) -> Medians:
    """The medians of each step, and of whatever has to be done before one."""
    for step in reversed(STEPS):
        if step in steps and STEPS[step][1]:
            steps.add(STEPS[step][1])
    told: dict[str, list[Ran]] = {step: [] for step in STEPS if step in steps}
    for turn in range(times):
        for step, runs in told.items():
            runs.append(STEPS[step][0](scene))
            ran = runs[-1]
            told_now = f"{ran.processor:.2f} s of processors, {ran.wall:.2f} s, {ran.memory:.0f} MB"
            print(f"{turn + 1}/{times} {step}: {told_now}", file=sys.stderr)
    return {
        step: Ran(
            *(median(getattr(ran, name) for ran in runs) for name in ("processor", "wall", "memory")), runs[0].said
        )
        for step, runs in told.items()
    }


def table(chosen: Sequence[Row], told: Medians) -> Iterator[str]:
    """The table in Markdown, for the terminal and for the page beside this."""
    yield "| what | bar | came to | held | processor, s | clock, s | memory, MB | to naive | to bytes |"
    yield "|---|---|---|---|---|---|---|---|---|"
    for row in chosen:
        ran, came = told[row.steps[0]], row.figure(told)
        ratios = [
            f"{ran.processor / told[by].processor:.3g}" if by in told and row.steps[0] not in ELSEWHERE else ""
            for by in ("naive", "bytes")
        ]
        cells = (row.what, f"{row.bar:g} {row.unit}", f"{came:.3g} {row.unit}", "yes" if came <= row.bar else "no")
        figures = (f"{ran.processor:.2f}", f"{ran.wall:.2f}", f"{ran.memory:.0f}")
        yield f"| {' | '.join((*cells, *figures, *ratios))} |"
    for by in ("naive", "bytes"):
        if by in told:
            ran = told[by]
            cells = (
                f"yardstick: {by}",
                "",
                "",
                "",
                f"{ran.processor:.2f}",
                f"{ran.wall:.2f}",
                f"{ran.memory:.0f}",
                "",
                "",
            )
            yield f"| {' | '.join(cells)} |"


def machine() -> str:
    known = Path("/proc/cpuinfo").read_text() if Path("/proc/cpuinfo").exists() else ""
    name = next((line.split(":")[1].strip() for line in known.splitlines() if line.startswith("model name")), "")
    python = f"Python {platform.python_version()}"
    return f"{name or platform.machine()}, {os.cpu_count()} processors, {platform.system()}, {python}"


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks", description=__doc__)
    names = ", ".join(row.name for row in rows(1000, 100))
    parser.add_argument(
        "--rows", default="", metavar="NAMES", help=f"some rows alone, with commas between them: {names}"
    )
    parser.add_argument(
        "--recipes", type=int, default=1000, help="how long the long book is (1000, which bars are for)"
    )
    parser.add_argument("--few", type=int, default=100, help="how long the short book is (100)")
    parser.add_argument("--times", type=int, default=5, help="how often each step is measured (5)")
    parser.add_argument(
        "--in", dest="folder", type=Path, default=None, help="where to work (the system's folder for it)"
    )
    asked = parser.parse_args()
    chosen = asked_of(rows(asked.recipes, asked.few), asked.rows)
    with TemporaryDirectory(dir=asked.folder) as folder:
        scene = Scene(Path(folder), asked.recipes, asked.few)
        told = repeated(scene, {step for row in chosen for step in row.steps}, asked.times)
    print(f"{machine()}; {asked.recipes:,} recipes, medians of {asked.times}\n")
    print("\n".join(table(chosen, told)))


if __name__ == "__main__":
    main()
