"""When something changes in a folder."""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

SETTLED, LOOKED_AFTER = 30, 1000
"""Milliseconds: how long nothing more is written before a save is taken for whole, and after which it is seen whether
the folder is still the same one."""


def saves(folder: Path) -> Iterator[bool]:
    """For ever, whether something may have changed in a folder: at first, after a save, and after a time without one.

    The folder may be away for a while.
    """
    from watchfiles import watch

    while True:
        home = _home(folder)
        yield True
        if home is None:
            time.sleep(LOOKED_AFTER / 1000)
            continue
        with suppress(FileNotFoundError):
            watched = watch(
                folder,
                watch_filter=None,
                step=SETTLED,
                rust_timeout=LOOKED_AFTER,
                yield_on_timeout=True,
                ignore_permission_denied=True,
            )
            for number, found in enumerate(watched):
                yield bool(found) or number == 0  # what was saved before the watch began is seen by then
                if _home(folder) != home:
                    break


def _home(folder: Path) -> tuple[int, int] | None:
    """Which folder it is, as the disk knows it; `None` where there is none."""
    try:
        found = folder.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
