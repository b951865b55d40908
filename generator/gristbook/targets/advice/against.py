"""Something that speaks against a brew: how grave it is, where it is written, and how it is said."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.problems import Place, Severity
from gristbook.sheet.value import Value
from gristbook.targets.advice.caution_rows import Caution
from gristbook.targets.conventions import PRACTICE
from gristbook.targets.method.step import Kind, Sentence

UNITS = {"SG": "", "pH": "", "ratio": "", "vol": " volumes", "d": " days", "fraction": " %"}
"""Units that are not said as they are written."""


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
        return Caution(str(last), self.kinds, source=self.source, short=self.short, lead=tuple(lead))


def told(words: Sentence) -> str:
    """A sentence with its values as a problem prints them.

    >>> from gristbook.sheet.value import constant
    >>> told(("It is ", constant(1.0, "d"), " old."))
    'It is 1 day old.'
    """
    return "".join(part if isinstance(part, str) else _short(part) for part in words)


def _short(value: Value) -> str:
    digits = {"SG": ".3f", "pH": ".2f"}.get(value.unit, ".3g")
    number = f"{100 * value.number if value.unit == 'fraction' else value.number:{digits}}"
    return "1 day" if (number, value.unit) == ("1", "d") else f"{number}{UNITS.get(value.unit, f' {value.unit}')}"
