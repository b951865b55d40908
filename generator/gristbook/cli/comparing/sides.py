"""The two sides of a comparison: which recipe of one is which of the other, and what may move every figure."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from difflib import SequenceMatcher
from functools import cached_property
from pathlib import Path, PurePosixPath

from gristbook.cli.comparing.lines import ALIKE, Line, merged, recipe_text
from gristbook.interface import Book, NoPlan, Plan
from gristbook.problems import Place, Problems
from gristbook.reading.files import inside
from gristbook.reading.names import DATED
from gristbook.reading.page import Page, read_page
from gristbook.reading.tree import Table, read_yaml
from gristbook.text.contents import recipes_in

SETTINGS, PANTRY = "book.yaml", "pantry/"
CHAPTERS = "chapters"
"""What names the recipes of its own day, and moves no figure."""


@dataclass(frozen=True, eq=False)
class Side:
    """One version of a book: what it is called, where its files are told to lie, its texts by path, and the book."""

    name: str
    shown: Path
    texts: Mapping[str, bytes]
    book: Book

    @cached_property
    def recipes(self) -> tuple[str, ...]:
        """The recipes' paths, whether they can be read or not."""
        return tuple(path for path in recipes_in(self.book.folder) if path in self.texts)

    def text(self, path: str) -> str:
        """A file as it is read."""
        return self.texts.get(path, b"").decode("utf-8-sig", "replace").replace("\r\n", "\n")

    def page(self, path: str) -> Page | None:
        """A recipe's fields and prose; `None` where it has none."""
        return read_page(self.text(path), path, Problems())

    def plan(self, path: str) -> Plan:
        """A recipe worked out, whether or not it is what its author expects; `NoPlan` where it cannot be."""
        try:
            return self.book.plan(path)
        except NoPlan:
            if page := self.page(path):
                same = list(merged(path, page.front, page.front))
                with suppress(NoPlan):
                    return self.book.plan(path, text=recipe_text(same, ()))
            raise


def laid_out(texts: Mapping[str, bytes], folder: Path) -> Book:
    """A book of such texts, written into a folder of ours that is not there yet."""
    for name, text in texts.items():
        path = inside(folder, name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text)
    return Book(folder)


def partners(then: Side, now: Side) -> dict[str, str]:
    """Which recipe is now at which path, by its path then: moved ones by their name, renamed ones by what they say."""
    found = {path: path for path in then.recipes if path in now.recipes}
    gone = [path for path in then.recipes if path not in found]
    new = [path for path in now.recipes if path not in found]
    for path in gone:
        likeness = {other: _likeness(path, then.text(path), other, now.text(other)) for other in new}
        best = max(new, key=lambda other: likeness[other], default="")
        if best and likeness[best] >= ALIKE:
            found[path] = best
            new.remove(best)
    return found


def _likeness(path: str, text: str, other: str, its: str) -> float:
    if PurePosixPath(path).name == PurePosixPath(other).name:
        return 1.0
    return SequenceMatcher(None, text.splitlines(), its.splitlines(), autojunk=False).ratio()


def shared_lines(then: Side, now: Side) -> list[Line]:
    """What may move every recipe: the lines of book.yaml, and each file of pantry and brews that is not as it was."""
    own = {*then.recipes, *now.recipes}
    dated = {
        str(PurePosixPath(it).parent) for it in (*then.texts, *now.texts) if DATED.fullmatch(PurePosixPath(it).stem)
    }
    found: list[Line] = []
    for name in sorted({*then.texts, *now.texts} - own):
        before, after = then.texts.get(name), now.texts.get(name)
        if before == after:
            continue
        if name == SETTINGS:
            trees = [read_yaml(side.text(name), name, Problems()) for side in (then, now)]
            fields = [tree if isinstance(tree, Table) else Table((), Place(name)) for tree in trees]
            found += (line for line in merged(name, *fields) if line.where[0] != CHAPTERS)
        elif name.startswith(PANTRY) or str(PurePosixPath(name).parent) in dated:
            found.append(Line(name, (), *(it if it is None else it.decode("latin-1") for it in (before, after))))
    return found


def is_brew(line: Line) -> bool:
    """Whether a line is a whole file of a brew; all of them teach together."""
    return not line.where and not line.file.startswith(PANTRY)
