"""`python -m tests.benchmarks.random_edits`: after each of many random edits, a build on what is kept writes what a
build from nothing writes, byte for byte.

Now and then the build after an edit is killed first, at a random moment. Where the book has an error, pages of an
earlier build stay, and nothing is compared until the book is mended. What differs ends the run, with the seed, the
number and the kind of the edit, and the first lines of the first files.
"""

from __future__ import annotations

import argparse
import difflib
import random
import shutil
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing
from itertools import islice
from pathlib import Path
from tempfile import mkdtemp

from .builder import Builder, Ended
from .edited_book import begin
from .edits import EDITS, Desk, as_it_was, files

FINE, PROBLEMS, KILLED = 0, 1, -9
MENDED = 0.5
"""How often a book with an error is mended before anything else is done to it."""


class Differs(AssertionError):
    """What was built after an edit is not what a build from nothing writes."""


class Edits:
    """A book in a folder, and what has been done to it."""

    def __init__(self, folder: Path, seed: int, *, recipes: int = 9, kill_every: int = 25) -> None:
        self.seed, self.kill_every, self.kills, self.counted = seed, kill_every, 0, Counter[str]()
        dice = random.Random(seed)
        self.clean, self.scratch = folder / "clean", Builder(folder / "other cache")
        self.desk = Desk(begin(folder / "book", recipes, seed), folder / "site", Builder(folder / "cache"), dice)
        self.told = self._built()
        self._sound(f"seed {seed}, the book as it was laid")
        assert self.told.status == FINE, self.told.err

    def close(self) -> None:
        self.scratch.close()
        self.desk.builder.close()

    def one(self, number: int, kinds: Sequence[str] = tuple(EDITS)) -> str:
        """Do one more edit, build, and compare; the kind of the edit."""
        desk = self.desk
        if self.told.status != FINE and desk.dice.random() < MENDED:
            kind = "mended"
            as_it_was(desk, desk.past[-1])
        else:
            drawn = (desk.dice.choice(kinds) for _ in range(1000))
            kind = next(kind for kind in drawn if EDITS[kind](desk))
        self.counted[kind] += 1
        if number % self.kill_every == 0:
            self._killed()
        self.told = self._built()
        self._sound(f"seed {self.seed}, edit {number}, {kind}")
        return kind

    def _built(self) -> Ended:
        """A build on what is kept, and one from nothing beside it."""
        shutil.rmtree(self.clean, ignore_errors=True)
        self.scratch.begin("build", self.desk.book, "--out", self.clean, "--fresh")
        told = self.desk.builder.run("build", self.desk.book, "--out", self.desk.site)
        self.anew = self.scratch.ended()
        return told

    def _killed(self) -> None:
        """A build that does not end: by turns while it writes, and at any moment before."""
        builder, moment = self.desk.builder, self.desk.dice.random()
        builder.begin("build", self.desk.book, "--out", self.desk.site)
        self.kills += 1
        if self.kills % 2:
            builder.kill(0.1 * moment**4, written=self.desk.site)
        else:
            builder.kill(self.anew.seconds * moment)
        self.counted["killed"] += builder.ended().status == KILLED

    def _sound(self, when: str) -> None:
        """Nothing differs, where the book has no error; else nothing is said of it."""
        if self.told.status not in (FINE, PROBLEMS) or self.anew.status != self.told.status:
            raise Differs(f"{when}: status {self.told.status}, from nothing {self.anew.status}\n{self.told.err}")
        if self.told.status == PROBLEMS:
            self.counted["with an error"] += 1
            return
        self.counted["compared"] += 1
        self.desk.past.append(self.desk.texts())
        if found := list(islice(differences(self.desk.site, self.clean), 3)):
            raise Differs("\n\n".join((when, *found)))
        if self.told.err != self.anew.err:
            raise Differs(f"{when}: other problems\n{shown(self.told.err, self.anew.err)}")


def differences(site: Path, clean: Path) -> Iterator[str]:
    """What one folder has otherwise than the other, a file at a time."""
    here, there = ({path.relative_to(root).as_posix(): path for path in files(root)} for root in (site, clean))
    for name in sorted(here.keys() | there.keys()):
        if name not in here or name not in there:
            yield f"{name}: {'too much' if name in here else 'missing'}"
        elif here[name].read_bytes() != there[name].read_bytes():
            yield f"{name}:\n{shown(*(path.read_text('utf-8', 'replace') for path in (here[name], there[name])))}"


def shown(built: str, clean: str, most: int = 12) -> str:
    lines = difflib.unified_diff(built.splitlines(), clean.splitlines(), "after the edit", "from nothing", "", "", 0)
    return "\n".join(line[:240] for line in islice(lines, most))


def many(folder: Path, asked: argparse.Namespace, told: Callable[[str], object]) -> Counter[str]:
    """So many edits, one after another, and how often each was done."""
    with closing(Edits(folder, asked.seed, recipes=asked.recipes, kill_every=asked.kill_every)) as it:
        for number in range(1, asked.edits + 1):
            begun = time.perf_counter()
            kind = it.one(number)
            seconds = f"{it.told.seconds:.1f} s, from nothing {it.anew.seconds:.1f} s"
            told(f"{number} {kind}: status {it.told.status}, {seconds}, in all {time.perf_counter() - begun:.1f} s")
    return it.counted


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.random_edits", description=__doc__)
    parser.add_argument("--edits", type=int, default=500, help="how many (500)")
    parser.add_argument("--seed", type=int, default=random.randrange(10**6), help="the same edits again (any)")
    parser.add_argument(
        "--recipes", type=int, default=9, help="of the book at first; 16 and more are made by several (9)"
    )
    parser.add_argument("--kill-every", type=int, default=25, help="so many builds, one is killed first (25)")
    asked = parser.parse_args()
    print(f"seed {asked.seed}", flush=True)
    folder = Path(mkdtemp())
    try:
        done = many(folder, asked, lambda line: print(line, flush=True))
    except Differs as fault:
        raise SystemExit(f"{fault}\n\nIt all lies in {folder}.") from None
    shutil.rmtree(folder)
    print("\n".join(f"{count:5} {kind}" for kind, count in done.most_common()))


if __name__ == "__main__":
    main()
