"""Something that speaks against a brew: how grave it is, where it is written, and how it is said."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.problems import Place, Severity, spoken
from gristbook.targets.advice.caution import Caution
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.method.step import Kind, Sentence


@dataclass(frozen=True, slots=True)
class Against:
    """A sentence against a brew, the kinds of step where it stands, and what a card has room for of it.

    The last part of the sentence is words.
    """

    severity: Severity
    place: Place
    words: Sentence
    kinds: tuple[Kind, ...] = ()
    short: str = ""
    source: str = PRACTICE

    @property
    def caution(self) -> Caution:
        """The same as a caution at its steps."""
        *lead, last = self.words
        return Caution(str(last), self.kinds, source=self.source, short=self.short, lead=tuple(lead), rank="grave")


def told(words: Sentence, *, us: bool = False) -> str:
    """A sentence with its values as a problem prints them, in metric or in US units.

    >>> from gristbook.sheet.value import constant
    >>> told(("It is ", constant(1.0, "d"), " old."))
    'It is 1 day old.'
    """
    return "".join(it if isinstance(it, str) else spoken(it.number, it.unit, us=us and not it.metric) for it in words)
