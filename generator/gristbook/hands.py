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
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager
from pathlib import Path

WORTH_A_HAND = 8
"""So many beers take as long as another process takes to begin."""


@contextmanager
def hands(folder: Path, digest: str, beers: int) -> Iterator[tuple[Hand, ...]]:
    """As many as there is work and room for, each at work by now; those that nobody waited for are ended.

    Parameters
    ----------
    digest : that of the folder as it was read, by `gristbook.site.disk.sources.digest_of`
    """
    many = min(_processors(), beers // WORTH_A_HAND)
    with ExitStack() as stack:
        yield tuple(stack.enter_context(Hand(folder, digest, n, many)) for n in range(1, many))


def _processors() -> int:
    """How many processors this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class Hand:
    """One such process; called, it waits for its files, which are `None` where it could not make them all."""

    def __init__(self, folder: Path, digest: str, first: int, of: int) -> None:
        asked = {"folder": str(folder.absolute()), "digest": digest, "first": first, "of": of}
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

    def __call__(self) -> Mapping[str, bytes] | None:
        """Wait for its files."""
        told, _ = self._process.communicate()
        return pickle.loads(told) if self._process.returncode == 0 else None
