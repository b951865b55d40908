"""Other processes that make some beers' pages beside this one, where a book is large and the machine has room for them.

Each is told the book's folder and its share, reads the book itself, and gives back the files; what it read must be what
was read here. One that fails in any way costs time alone: its share is made here then.
"""

from __future__ import annotations

import json
import os
import pickle
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

WORTH_A_HAND = 8
"""So many beers take as long as another process takes to begin."""


@contextmanager
def hands() -> Iterator[Hands]:
    """As many as are begun there; those that nobody waited for are ended."""
    with ExitStack() as stack:
        yield Hands(stack)


class Hands:
    """Other processes, once they have been begun; each gives its share when it is called."""

    def __init__(self, stack: ExitStack) -> None:
        self._stack, self.all = stack, list[Hand]()

    def begin(self, folder: Path, digest: str, beers: Sequence[str]) -> None:
        """Put as many to work on some beers as there is work and room for; the first share is left to this one.

        Parameters
        ----------
        digest : that of the folder as it was read, by `gristbook.site.disk.sources.digest_of`
        """
        many = min(_processors(), len(beers) // WORTH_A_HAND)
        self.all += [self._stack.enter_context(Hand(folder, digest, beers[n::many])) for n in range(1, many)]


def _processors() -> int:
    """How many processors this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class Hand:
    """One such process; called, it waits for its share, which is `None` where it could not make all of it."""

    def __init__(self, folder: Path, digest: str, beers: Sequence[str]) -> None:
        self.beers = beers
        asked = {"folder": str(folder.absolute()), "digest": digest, "beers": beers}
        self._process = subprocess.Popen(
            [sys.executable, "-m", "gristbook.lend", json.dumps(asked)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path))},
        )

    def __enter__(self) -> Hand:
        """Itself, at work."""
        return self

    def __exit__(self, *_: object) -> None:
        """End it, where nobody has waited for it."""
        if self._process.poll() is None:
            self._process.kill()
        with self._process:
            pass

    def __call__(self) -> Any:
        """Wait for what it makes, as `gristbook.building.share` gives it."""
        told, _ = self._process.communicate()
        return pickle.loads(told) if self._process.returncode == 0 else None
