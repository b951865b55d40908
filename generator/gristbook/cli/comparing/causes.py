"""Which figures of a recipe moved, and what each change does by itself: made alone in the recipe and book of then."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cache
from itertools import combinations
from pathlib import Path

from gristbook.cli.comparing.lines import Change, Line, changes, merged, recipe_text, written
from gristbook.cli.comparing.moves import Move, moves, named
from gristbook.cli.comparing.sides import SETTINGS, Side, is_brew, laid_out, shared_lines
from gristbook.interface import Book, NoPlan, Plan

MOST_IN_PAIRS = 12
"""Changes that are tried two by two, to see which of them act together."""

MATTERS = 0.1
"""What changes do together and not one by one is told from such a share of the largest of it on."""


@dataclass(frozen=True, slots=True)
class Cause:
    """Lines that were changed together, and what they move by themselves.

    ``joined`` says that one of them alone gives no recipe that can be brewed.
    """

    lines: tuple[Line, ...]
    moves: Mapping[str, Move]
    joined: bool


@dataclass(frozen=True, slots=True)
class Together:
    """Causes, by their places, that do not add up, and figures: from the sum of what each does to what both do."""

    causes: tuple[int, ...]
    figures: Mapping[str, Move]


@dataclass(frozen=True, slots=True)
class Compared:
    """A recipe on both sides; ``prose`` says that its words changed."""

    was: str
    path: str
    then: Plan
    now: Plan
    moves: Mapping[str, Move]
    causes: tuple[Cause, ...]
    together: tuple[Together, ...]
    prose: bool

    @property
    def touched(self) -> bool:
        """Whether anything of it moved, or its own text says something else."""
        return bool(self.moves or self.prose or any(it.lines[0].file == self.was for it in self.causes))


class Bench:
    """The book of then, with whichever of the changes that all recipes share; each is laid out once in ``home``."""

    def __init__(self, then: Side, now: Side, home: Path) -> None:
        self.then, self.now, self.home = then, now, home
        self.shared = shared_lines(then, now)
        self._books: dict[frozenset[int], Book] = {frozenset(): then.book}

    def book(self, chosen: frozenset[int]) -> Book:
        """The book with these of the shared lines as they are now."""
        if chosen not in self._books:
            texts = dict(self.then.texts)
            fields = [it if it.where else replace(it, then=None, now=None) for it in self.shared]
            for line in (self.shared[at] for at in chosen):
                if line.where:
                    texts[SETTINGS] = written(fields, chosen).encode()
                elif line.now is None:
                    del texts[line.file]
                else:
                    texts[line.file] = line.now.encode("latin-1")
            self._books[chosen] = laid_out(texts, self.home / f"tried-{len(self._books)}")
        return self._books[chosen]

    def compared(self, was: str, path: str, then: Plan, now: Plan) -> Compared:
        """A recipe of then beside what it is now, both worked out."""
        before, after = self.then.page(was), self.now.page(path)
        assert before, "it has been worked out"
        assert after, "it has been worked out"
        own, lines = len(self.shared), [*self.shared, *merged(was, before.front, after.front)]

        @cache
        def tried(change: Change) -> Plan | None:
            text = recipe_text(lines[own:], {at - own for at in change})
            with suppress(NoPlan):
                return self.book(frozenset(at for at in change if at < own)).plan(was, text=text)
            return None

        made, least = _workable(lines, tried, now), _least(lines)
        causes = tuple(
            Cause(tuple(lines[at] for at in change), moves(then, plan), change not in least)
            for change, plan in made.items()
        )
        together = tuple(_together(then, now, made, tried))
        return Compared(was, path, then, now, moves(then, now), causes, together, before.prose != after.prose)


Trial = Callable[[Change], Plan | None]


def _least(lines: list[Line]) -> list[Change]:
    """The changes one by one, but all brews as one, for they teach together."""
    found = changes(lines)
    brews = tuple(at for change in found for at in change if is_brew(lines[at]))
    others = [change for change in found if not is_brew(lines[change[0]])]
    return [brews, *others] if brews else others


def _workable(lines: list[Line], tried: Trial, now: Plan) -> dict[Change, Plan]:
    """The changes that can be brewed by themselves; one that cannot is joined with the nearest that makes it so."""
    found = {change: tried(change) for change in _least(lines)}
    while change := next((it for it, plan in found.items() if plan is None), None):
        near = sorted((it for it in found if it != change), key=lambda it: _apart(lines, change, it))
        if not near:  # all of it together is what stands there now
            return {change: now}
        unions = {other: tuple(sorted({*change, *other})) for other in near}
        partner = next((it for it in near if tried(unions[it])), near[0])
        found = {it: plan for it, plan in found.items() if it not in (change, partner)}
        found[unions[partner]] = tried(unions[partner])
    return {change: plan for change, plan in sorted(found.items()) if plan}


def _apart(lines: list[Line], one: Change, other: Change) -> tuple[bool, bool, int]:
    """How far changes stand from each other: in other files, in other fields, by lines."""
    first, second = lines[one[0]], lines[other[0]]
    return first.file != second.file, first.where[:1] != second.where[:1], abs(one[0] - other[0])


def _together(then: Plan, now: Plan, made: Mapping[Change, Plan], tried: Trial) -> Iterator[Together]:
    """Which changes do not add up, two by two, or all that move a figure where no two explain it."""
    every, alone = [*made], [_by(then, plan) for plan in made.values()]
    whole, found = _off(then, alone, _by(then, now)) if len(every) > 1 else {}, []
    for pair in combinations(range(len(every)), 2) if whole and len(every) <= MOST_IN_PAIRS else ():
        if both := tried(tuple(sorted(every[pair[0]] + every[pair[1]]))):
            off = _off(then, [alone[at] for at in pair], _by(then, both))
            if off := {figure: move for figure, move in off.items() if figure in whole}:
                found.append(Together(pair, off))
    movers = [at for at, by in enumerate(alone) if any(by.get(figure) for figure in whole)]
    rest = Together(tuple(movers if len(movers) > 1 else range(len(every))), whole)
    yield from found or ([rest] if whole else [])


def _by(then: Plan, now: Plan) -> dict[str, float]:
    """By how much each figure that both have is more than it was."""
    after = named(now)
    return {it: after[it].number - value.number for it, value in named(then).items() if it in after}


def _off(then: Plan, parts: list[dict[str, float]], whole: dict[str, float]) -> dict[str, Move]:
    """The figures that move visibly more or less than by the sum of their parts: from that sum to where they are."""
    found = {}
    for figure, by in whole.items():
        each, value = [part.get(figure, 0.0) for part in parts], then[figure].value
        summed, now = (replace(value, number=value.number + it) for it in (sum(each), by))
        move = Move(figure, summed, now, then.us_first)
        if abs(by - sum(each)) > MATTERS * max(map(abs, (by, *each))) and move.by:
            found[figure] = move
    return found
