"""What has changed in a recipe since it was brewed, line by line."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import SequenceMatcher

from gristbook.model.batch import Batch
from gristbook.targets.batches.results import Difference

Sections = tuple[tuple[str, tuple[str, ...]], ...]
"""A recipe's lines by section, in order, as one writer writes them."""

ALIKE = 0.6
"""Two lines as much alike as this are one line that changed; others are one that went and one that came."""


def differences(batch: Batch, today: Sections) -> tuple[Difference, ...]:
    """The lines that are not the same in the batch's frozen recipe and in today's, in the recipe's order.

    Parameters
    ----------
    today : the recipe's sections now, by the writer that froze the batch's, in the same units
    """
    then, now = dict(batch.frozen.sections), dict(today)
    names = dict.fromkeys([name for name, _ in batch.frozen.sections] + [name for name, _ in today])
    return tuple(it for name in names for it in _of_section(name, then.get(name, ()), now.get(name, ())))


def _of_section(name: str, then: tuple[str, ...], now: tuple[str, ...]) -> Iterator[Difference]:
    matcher = SequenceMatcher(None, then, now, autojunk=False)
    for kind, a, b, c, d in matcher.get_opcodes():
        if kind != "equal":
            for left, right in _paired(list(then[a:b]), list(now[c:d])):
                yield Difference(name, left, right)


def _paired(gone: list[str], come: list[str]) -> Iterator[tuple[str, str]]:
    """Lines that changed side by side; what has no partner stands alone."""
    for line in gone:
        best = max(come, key=lambda other: SequenceMatcher(None, line, other).ratio(), default="")
        if best and SequenceMatcher(None, line, best).ratio() >= ALIKE:
            come.remove(best)
            yield line, best
        else:
            yield line, ""
    yield from (("", line) for line in come)
