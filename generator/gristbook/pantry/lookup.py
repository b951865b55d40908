"""The look-up that forgives spelling and never guesses: what fits is found, all of it, or nothing and what is near."""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property, partial
from typing import Any, Generic

from gristbook.pantry.names import Vocabulary, Words
from gristbook.pantry.records import R
from gristbook.problems import nearest

_TRAILING_COLOUR = re.compile(r"\s*\b\d+\s*°?\s*L$")


@dataclass(frozen=True, slots=True)
class Match(Generic[R]):
    """What a name may mean: one record, several where it fits several, or none.

    It is ``exact`` where the name has the very words of theirs, and not only a part of them. ``seek`` finds what is
    near; whoever says nothing of it does not wait for it.
    """

    found: tuple[R, ...]
    seek: Callable[[], str] = field(default=str, compare=False)
    exact: bool = False

    @property
    def nearest(self) -> str:
        """The known name that was most likely meant, where nothing was found."""
        return self.seek()

    @property
    def names(self) -> str:
        """The names of what was found, for a problem that tells them apart."""
        return " or ".join(record.name for record in self.found)

    @property
    def only(self) -> R | None:
        """The record, where exactly one was found."""
        return self.found[0] if len(self.found) == 1 else None


def nearest_of(name: str, matches: Iterable[Match[Any]]) -> str:
    """What is most likely meant of all that several shelves have near to a name; "" where none has anything."""
    close = [match.nearest for match in matches if match.nearest]
    return nearest(name, close) or next(iter(close), "")


@dataclass(frozen=True, slots=True)
class _Label(Generic[R]):
    """One name of a record, ready to be compared; the family is the name without its qualifiers."""

    record: R
    name: str
    words: Words
    core: frozenset[str]
    family: frozenset[str]


class Shelf(Generic[R]):
    """The records of one section in the order of their file, and the look-up by name."""

    def __init__(self, records: Iterable[R], vocabulary: Vocabulary) -> None:
        self.records = tuple(records)
        self._vocabulary = vocabulary
        self._labels = [self._label(record, name) for record in self.records for name in (record.name, *record.also)]
        self._with: dict[str, list[_Label[R]]] = {}
        for label in self._labels:
            for word in dict.fromkeys(label.words):
                self._with.setdefault(word, []).append(label)

    def look_up(self, name: str) -> Match[R]:
        """What a name may mean.

        An exact name wins over the same words in another order, those over the words that matter and over the name of
        a family (`munich malt`: the light and the dark). What is only a part of names is found if it is a part of
        several, or if it is more than half of the one: less would be a guess.
        """
        words = self._vocabulary.words(name)
        core = self._vocabulary.core(words)
        allowed = frozenset(words) - self._vocabulary.added
        ways: tuple[Callable[[_Label[R]], bool], ...] = (
            lambda label: label.words == words,
            lambda label: sorted(label.words) == sorted(words),
            lambda label: core in (label.core, label.family) and allowed.issubset(label.words),
            lambda label: core < label.core and allowed.issubset(label.words),
        )
        like = min((self._with.get(word, []) for word in core or words), key=len, default=[])
        for way in ways if core else ways[:2]:
            labels = [label for label in like if way(label)]
            if not labels:
                continue
            found = tuple(dict.fromkeys(label.record for label in labels))
            if way is ways[-1] and len(found) == 1 and all(2 * len(core) <= len(label.core) for label in labels):
                return Match((), partial(str, found[0].name))
            return Match(found, exact=way in ways[:2])
        return Match((), partial(self._nearest, words, core))

    def shares_a_word(self, text: str) -> bool:
        """Whether a word of a text is one of a name here: without any, no part of it can be such a name."""
        return not self._with.keys().isdisjoint(self._vocabulary.words(text))

    def _label(self, record: R, name: str) -> _Label[R]:
        words, family = self._vocabulary.words(name), self._vocabulary.words(_without_qualifiers(name))
        return _Label(record, name, words, self._vocabulary.core(words), self._vocabulary.core(family))

    def _nearest(self, words: Words, core: frozenset[str]) -> str:
        """The name to suggest: the same malt in the nearest colour, the name within the words, a like spelling."""
        if not core or any(word.endswith("ebc") for word in words):
            return ""  # the numbers in our names are °L: the nearest number to one in EBC is the wrong malt
        if malt := self._nearest_in_colour(words, core):
            return malt
        if within := [label for label in self._labels if label.core and label.core < core]:
            return max(within, key=lambda label: len(label.core)).record.name
        return self._spelled.get(nearest(self._telling(words), self._spelled), "")

    @cached_property
    def _spelled(self) -> Mapping[str, str]:
        """Every name by its telling words, families first."""
        names = [label.name for label in self._labels]
        return {
            telling: name
            for name in (*map(_without_qualifiers, names), *names)
            if (telling := self._telling(self._vocabulary.words(name)))
        }

    def _nearest_in_colour(self, words: Words, core: frozenset[str]) -> str:
        """The malt of the same family whose colour, which stands in its name, is nearest to the one asked for."""
        asked = next((word for word in words if _is_colour(word)), "")
        kin = {
            abs(int(word) - int(asked)): label.record.name
            for label in self._labels
            if asked and label.family == core - {asked}
            for word in label.words
            if _is_colour(word)
        }
        return kin[min(kin)] if kin else ""

    def _telling(self, words: Words) -> str:
        """The words that matter, in their order, as one text."""
        core = self._vocabulary.core(words)
        return " ".join(word for word in words if word in core)


def _is_colour(word: str) -> bool:
    return word.isdecimal() and len(word) < 5


def _without_qualifiers(name: str) -> str:
    """The family that a name belongs to.

    >>> _without_qualifiers("Munich malt, light"), _without_qualifiers("Caramel malt 60 L")
    ('Munich malt', 'Caramel malt')
    """
    return _TRAILING_COLOUR.sub("", name.partition(",")[0])
