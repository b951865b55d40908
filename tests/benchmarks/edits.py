"""What an author may do to a book between two builds, each once and at random; `EDITS` has them by name.

An edit is given the `Desk` and changes files of the book (one or two: of the site, or of what earlier builds kept). It
says `False` where there is nothing to do it to. Not every edit leaves the book without an error: no author's do. Those
of a word or a number stand in `made/edits.yaml`.
"""

from __future__ import annotations

import os
import re
import shutil
from collections import deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import partial
from pathlib import Path
from random import Random
from typing import Any

import yaml

from .builder import Builder
from .edited_book import FILES, paint
from .made_beer import MADE, beer, front
from .made_book import prose


@dataclass(slots=True)
class Desk:
    """The book, its site, who builds it, and the dice; ``past`` is the book as it was when it had no error."""

    book: Path
    site: Path
    builder: Builder
    dice: Random
    past: deque[Mapping[str, bytes]] = field(default_factory=lambda: deque(maxlen=20))
    fresh: int = 200

    def recipes(self) -> list[Path]:
        return sorted(self.book.glob("*.md"))

    def brews(self) -> list[Path]:
        return sorted(self.book.glob("*/20*.md"))

    def texts(self) -> dict[str, bytes]:
        return {path.relative_to(self.book).as_posix(): path.read_bytes() for path in files(self.book)}

    def one(self, some: Sequence[Path]) -> Path | None:
        return self.dice.choice(some) if some else None


Edit = Callable[[Desk], bool]


def files(folder: Path) -> Iterator[Path]:
    return (path for path in sorted(folder.rglob("*")) if path.is_file())


def put(desk: Desk, path: Path | None, pattern: str, said: Callable[[re.Match[str]], str]) -> bool:
    """One of the places in a file that fit a pattern, said anew; whether that changes anything."""
    found = list(re.finditer(pattern, path.read_text("utf-8"), re.MULTILINE)) if path and path.exists() else []
    if path is None or not found:
        return False
    it = desk.dice.choice(found)
    text = it.string[: it.start()] + said(it) + it.string[it.end() :]
    path.write_text(text, "utf-8")
    return text != it.string


def small(row: Mapping[str, Any], desk: Desk) -> bool:
    """An edit of the table."""

    def said(it: re.Match[str]) -> str:
        if "say" in row:
            return str(desk.dice.choice(row["say"])).format(n=desk.dice.randint(1, 999), it=it[0])
        moved = float(it[1]) * desk.dice.uniform(1 - row["by"], 1 + row["by"])
        return it[0].replace(it[1], f"{moved:.3g}", 1)

    path = desk.one(sorted(desk.book.glob(row["in"])))
    return put(desk, path, row["find"].replace("N", r"\d+(?:\.\d+)?"), said)


EDITS: dict[str, Edit] = {
    row["what"]: partial(small, row) for row in yaml.safe_load((MADE / "edits.yaml").read_text("utf-8"))
}


def edit(what: str) -> Callable[[Edit], Edit]:
    """File an edit that is more than a word."""

    def filed(done: Edit) -> Edit:
        EDITS[what] = done
        return done

    return filed


def a_recipe(desk: Desk) -> Path | None:
    return desk.one(desk.recipes())


def a_brew(desk: Desk) -> Path | None:
    return desk.one(desk.brews())


@edit("the order of a chapter")
def _(desk: Desk) -> bool:
    def shuffled(it: re.Match[str]) -> str:
        names = it[1].split(", ")
        desk.dice.shuffle(names)
        return f"recipes: [{', '.join(names)}]"

    return put(desk, desk.book / "book.yaml", r"recipes: \[(.*)\]", shuffled)


@edit("a recipe more")
def _(desk: Desk) -> bool:
    if len(desk.recipes()) > 12:
        return False
    desk.fresh += 1
    it = beer(desk.fresh, Random(desk.fresh))
    fields = "\n".join(front(it, date(2026, 5, 1)))
    (desk.book / f"{it.slug}.md").write_text(f"---\n{fields}\n---\n\n{prose(it, 1000, desk.dice)}", "utf-8")
    return put(desk, desk.book / "book.yaml", r"recipes: \[", lambda found: f"{found[0]}{it.slug}, ") or True


@edit("a recipe less")
def _(desk: Desk) -> bool:
    path = a_recipe(desk)
    if path is None or len(desk.recipes()) < 6:
        return False
    path.unlink()
    shutil.rmtree(path.with_suffix(""), ignore_errors=True)
    return said_everywhere(desk, f"{path.stem}, ", "") or True


@edit("a recipe renamed")
def _(desk: Desk) -> bool:
    path = a_recipe(desk)
    if path is None:
        return False
    name = f"level-{desk.dice.randint(1, 999)}-{path.stem}"[:60]
    path.rename(desk.book / f"{name}.md")
    if path.with_suffix("").is_dir():
        path.with_suffix("").rename(desk.book / name)
    if desk.dice.random() < 0.7:  # else chapters and links still have the old name
        said_everywhere(desk, path.stem, name)
    return True


def said_everywhere(desk: Desk, old: str, new: str) -> bool:
    for path in (*desk.recipes(), *desk.brews(), desk.book / "book.yaml"):
        path.write_text(path.read_text("utf-8").replace(old, new), "utf-8")
    return True


@edit("two recipes change their names")
def _(desk: Desk) -> bool:
    if len(desk.recipes()) < 2:
        return False
    one, other = desk.dice.sample(desk.recipes(), 2)
    between = desk.book / "between"
    one.rename(between)
    other.rename(one)
    between.rename(other)
    return True


@edit("a brew begun")
def _(desk: Desk) -> bool:
    path = a_recipe(desk)
    day = date(2026, 1, 1) + timedelta(days=desk.dice.randint(0, 300))
    return path is not None and desk.builder.run("brew", path, "--on", day).status == 0


FILL_IN = {
    "mash temperature": "67 °C",
    "before the boil": "24.{n} L at 1.038",
    "end of the boil": "22.{n} L hot at 1.045",
    "into the fermenter": "19.{n} L",
    "original gravity": "1.04{n} at 20 °C",
    "pitched": "19 °C",
    "final gravity": "1.01{n} at 19 °C",
    "left in kettle": "1.{n} L",
}


@edit("a brew filled in")
def _(desk: Desk) -> bool:
    begun = [
        path
        for path in desk.brews()
        if re.search(r"^  into the fermenter: *(?:#.*)?$", path.read_text("utf-8"), re.MULTILINE)
    ]
    path = desk.one(begun)
    done = [
        put(
            desk,
            path,
            rf"^  {name}: *(?:#.*)?$",
            lambda it, name=name, words=words: f"  {name}: {words.format(n=desk.dice.randint(1, 4))}",
        )
        for name, words in FILL_IN.items()
        if desk.dice.random() < 0.6
    ]
    return any(done)


@edit("a brew set aside")
def _(desk: Desk) -> bool:
    path = a_brew(desk)
    if path is None or len(desk.brews()) < 3:
        return False
    if desk.dice.random() < 0.5:
        path.unlink()
    else:
        path.rename(path.with_suffix(".aside"))
    return True


@edit("a picture")
def _(desk: Desk) -> bool:
    path = a_recipe(desk)
    if path is None:
        return False
    painted = path.with_suffix("") / f"board-{desk.dice.randint(1, 2)}.png"
    paint(painted, f"#{desk.dice.randint(0, 0xFFFFFF):06x}")
    text = path.read_text("utf-8")
    if painted.name not in text:
        path.write_text(f"{text}\n![A board]({path.stem}/{painted.name})\n", "utf-8")
    return True


@edit("a file of the theme, the pages or the pantry gone or back")
def _(desk: Desk) -> bool:
    name = desk.dice.choice(sorted(FILES))
    path = desk.book / name
    if path.exists():
        path.unlink()
    else:
        path.write_text(FILES[name], "utf-8")
    return True


@edit("a file as it was before, with its old time")
def _(desk: Desk) -> bool:
    then, now = desk.dice.choice(desk.past), desk.texts()
    name = desk.dice.choice([name for name, text in then.items() if now.get(name) != text] or [""])
    if name:
        put_back(desk, name, then[name])
        os.utime(desk.book / name, (1_700_000_000, 1_700_000_000))
    return bool(name)


@edit("the whole book as it was before")
def _(desk: Desk) -> bool:
    return as_it_was(desk, desk.dice.choice(desk.past))


@edit("a save that changes nothing")
def _(desk: Desk) -> bool:
    path = a_recipe(desk)
    if path is not None:
        path.touch()
    return path is not None


@edit("a page of the site lost")
def _(desk: Desk) -> bool:
    path = desk.one([path for path in files(desk.site) if path.suffix in (".html", ".json", ".svg", ".css")])
    if path is not None:
        path.unlink()
    return path is not None


@edit("something that was kept lost")
def _(desk: Desk) -> bool:
    path = desk.one(list(files(desk.builder.cache)))
    if path is not None:
        path.unlink()
    return path is not None


def as_it_was(desk: Desk, then: Mapping[str, bytes]) -> bool:
    """The whole book as it was at another time; whether that changes anything."""
    now = desk.texts()
    for name in now.keys() - then.keys():
        (desk.book / name).unlink()
    for name, text in then.items():
        if now.get(name) != text:
            put_back(desk, name, text)
    return now != then


def put_back(desk: Desk, name: str, text: bytes) -> None:
    (desk.book / name).parent.mkdir(parents=True, exist_ok=True)
    (desk.book / name).write_bytes(text)
