"""What is being made, on a terminal, while it takes longer than a second: a bar, which is gone when all is made."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tqdm import tqdm

PATIENCE_S = 1.0
"""How long nobody wonders what is going on."""


@contextmanager
def progress() -> Iterator[Callable[[str, int, int], None]]:
    """`told(what, done, of)`, to be called when so many of all are made and ``what`` is next.

    Nothing is shown, and nothing loaded for it, where nobody watches or before they wonder.
    """
    begun, shown = time.monotonic(), list["tqdm[None]"]()

    def told(what: str, done: int, of: int) -> None:
        if not shown and sys.stderr.isatty() and time.monotonic() - begun > PATIENCE_S:
            from tqdm import tqdm

            form = "{n_fmt} of {total_fmt} {bar:20} {desc}"
            shown.append(tqdm(desc=what, total=of, initial=done, leave=False, bar_format=form))
        for bar in shown:
            bar.set_description_str(what, refresh=False)
            bar.total = of
            bar.update(done - bar.n)

    try:
        yield told
    finally:
        for bar in shown:
            bar.close()
