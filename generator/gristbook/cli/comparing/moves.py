"""A figure that moved: from where to where, by how much, and whether out of the range that it had."""

from __future__ import annotations

from dataclasses import dataclass, replace

from gristbook.interface import Plan
from gristbook.model.figures import FIGURES, words_of
from gristbook.sheet.value import Value
from gristbook.site.amounts import Amount, amount, moved, span
from gristbook.site.beer.tables import is_told

NONE = "none"


@dataclass(frozen=True, slots=True)
class Move:
    """A named figure as it was and as it is; `None` where a recipe has it not. ``us`` says whose units are printed."""

    figure: str
    then: Value | None
    now: Value | None
    us: bool

    @property
    def words(self) -> str:
        """What the figure is called."""
        return words_of(self.figure)

    @property
    def by(self) -> str:
        """How far it moved, as it is read; "" where it reads as it did."""
        if self.then is None or self.now is None:
            return "new" if self.now else "gone" if self.then else ""
        return _plain(moved(self.then, self.now, us=self.us))

    @property
    def beyond(self) -> bool | None:
        """Whether it reads as not nine in ten of the brews of then did; `None` where there was no such range."""
        if self.then is None or self.now is None or span(self.then) is None:
            return None
        end = self.then.low if self.now.number < self.then.number else self.then.high
        outside = not self.then.low <= self.now.number <= self.then.high
        return outside and moved(replace(self.then, number=end), self.now, us=self.us) != ""

    @property
    def row(self) -> tuple[str, ...]:
        """Its words, both numbers, how far it moved, and where nine in ten lay."""
        between = span(self.then) if self.then and self.now else None
        lay = (
            f"{'beyond' if self.beyond else 'within'} {self._own(between)}".replace(" and ", " to ") if between else ""
        )
        both = (self._own(amount(it)) if it else NONE for it in (self.then, self.now))
        return (self.words, *both, self.by, lay)

    def _own(self, shown: Amount) -> str:
        return _plain((self.us and shown.us) or shown.metric)


def _plain(words: str) -> str:
    return words.replace("\N{NO-BREAK SPACE}", " ")


def named(plan: Plan) -> dict[str, Value]:
    """The figures of a plan that have a name and are told."""
    return {figure: value for figure, value in plan.plan.named.items() if is_told(figure, plan.plan)}


def moves(then: Plan, now: Plan) -> dict[str, Move]:
    """What does not read as it did, in the order of the brew."""
    before, after = named(then), named(now)
    found = (Move(row.id, before.get(row.id), after.get(row.id), now.us_first) for row in FIGURES)
    return {move.figure: move for move in found if move.by}
