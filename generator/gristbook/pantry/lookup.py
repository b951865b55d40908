"""The look-up that forgives spelling and never guesses: what fits is found, all of it, or nothing and what is near."""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, partial
from typing import Any, Generic

from gristbook.pantry.names import Vocabulary, Words
from gristbook.pantry.records import R
from gristbook.problems import nearest

_TRAILING_COLOUR = re.compile(r"\s*\b\d+\s*°?\s*L$")


@dataclass(frozen=True, slots=True)
class Match(Generic[R]):
    """What a name may mean: one record, several where it fits several, or none.

    ``usual`` is the one of several that such a name mostly means. It is ``exact`` where the name has the very words of
    theirs, and not only a part of them; ``aside`` where some of its words were set aside. ``seek`` finds what is near;
    whoever says nothing of it does not wait for it.
    """

    found: tuple[R, ...]
    seek: Callable[[], str] = field(default=str, compare=False)
    exact: bool = False
    usual: R | None = None
    aside: bool = False

    @property
    def nearest(self) -> str:
        """The known name that was most likely meant, where nothing was found, as it can be typed in a line."""
        return typed(self.seek())

    @property
    def names(self) -> str:
        """The names of what was found, for a problem that tells them apart."""
        return " or ".join(typed(record.name) for record in self.found)

    @property
    def only(self) -> R | None:
        """The record, where exactly one was found."""
        return self.found[0] if len(self.found) == 1 else None


def typed(name: str) -> str:
    """A name as it is typed in a line, where a comma would end it."""
    return name.replace(",", "")


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
        self._usual = {
            vocabulary.core(vocabulary.words(name)): record for record in self.records for name in record.usual_for
        }
        self._asked: dict[str, Match[R]] = {}
        self._with: dict[str, list[_Label[R]]] = {}
        for label in self._labels:
            for word in dict.fromkeys(label.words):
                self._with.setdefault(word, []).append(label)

    def look_up(self, name: str) -> Match[R]:
        """What a name may mean; words that set nothing apart are set aside, first those that no name here has."""
        known = self._asked.get(name) or self._with_fewer(self._vocabulary.words(name))
        self._asked[name] = known
        return known

    def _with_fewer(self, words: Words) -> Match[R]:
        aside, missed = self._vocabulary.aside, list[Match[R]]()
        fewer = (tuple(word for word in words if word not in some) for some in (aside - self._with.keys(), aside))
        for left in dict.fromkeys((words, *fewer)):
            match = self._find(left)
            if match.found:
                return match if left == words else replace(match, exact=False, aside=True)
            missed.append(match)
        return Match((), lambda: next((near for match in missed if (near := match.seek())), ""))

    def names(self, name: str) -> bool:
        """Whether a name is one of a thing here, and no part of several names."""
        match = self._asked.get(name) or self.look_up(name)
        return match.exact or len(match.found) == 1 or match.usual is not None

    def knows(self, name: str) -> bool:
        """Whether each word is one that names on this shelf have, or that is set aside."""
        words = self._vocabulary.words(name)
        known = self._vocabulary.aside | self._vocabulary.added | self._with.keys()
        return bool(words) and known.issuperset(words)

    def adds(self, name: str, more: str) -> bool:
        """Whether more words belong to a name: this shelf knows each of them, and both together say no other thing."""
        alone, both = self.look_up(name).found, self.look_up(f"{name} {more}").found
        return self.knows(more) and bool(both) and (not alone or set(both) <= set(alone))

    def _find(self, words: Words) -> Match[R]:
        """What words mean.

        An exact name wins over the same words in another order, those over the words that matter and over the name of
        a family (`munich malt`: the light and the dark). What is only a part of names is found if it is a part of
        several, or if it is more than half of the one: less would be a guess.
        """
        if not words:
            return Match(())
        core = self._vocabulary.core(words)
        allowed = frozenset(words) - self._vocabulary.added
        usual = self._usual.get(core)
        ways: tuple[Callable[[_Label[R]], bool], ...] = (
            lambda label: label.words == words,
            lambda label: sorted(label.words) == sorted(words),
            lambda label: core in (label.core, label.family) and allowed.issubset(label.words),
            lambda label: core < label.core and allowed.issubset(label.words),
        )
        like = min((self._with.get(word, []) for word in core or words), key=len, default=[])
        for way in ways if core else ways[:2]:
            found = tuple(dict.fromkeys(label.record for label in like if way(label)))
            guess = way is ways[-1] and len(found) == 1
            if found and not (guess and all(2 * len(core) <= len(label.core) for label in like if way(label))):
                usual = usual if len(found) > 1 and usual in found else None
                return Match(found, exact=way in ways[:2], usual=usual)
        return Match((usual,), usual=usual) if usual else Match((), partial(self._nearest, words, core))

    def shares_a_word(self, text: str) -> bool:
        """Whether a word of a text is one of a name here: without any, no part of it can be such a name."""
        return not self._with.keys().isdisjoint(self._vocabulary.words(text))

    def _label(self, record: R, name: str) -> _Label[R]:
        words, family = self._vocabulary.words(name), self._vocabulary.words(_without_qualifiers(name))
        return _Label(record, name, words, self._vocabulary.core(words), self._vocabulary.core(family))

    def _nearest(self, words: Words, core: frozenset[str]) -> str:
        """The name of which the words that matter are a slip; another number is another thing."""
        like = self._spelled.get(_numbers(words), {})
        return like.get(nearest(self._telling(words), like), "") if core else ""

    @cached_property
    def _spelled(self) -> Mapping[Words, Mapping[str, str]]:
        """Every name by its numbers and its telling words, families first."""
        names, found = [label.name for label in self._labels], dict[Words, dict[str, str]]()
        for name in (*map(_without_qualifiers, names), *names):
            words = self._vocabulary.words(name)
            if telling := self._telling(words):
                found.setdefault(_numbers(words), {})[telling] = name
        return found

    def _telling(self, words: Words) -> str:
        """The words that matter, in their order, as one text."""
        core = self._vocabulary.core(words)
        return " ".join(word for word in words if word in core)


def _numbers(words: Words) -> Words:
    return tuple(word for word in words if word.isdecimal())


def _without_qualifiers(name: str) -> str:
    """The family that a name belongs to.

    >>> _without_qualifiers("Munich malt, light"), _without_qualifiers("Caramel malt 60 L")
    ('Munich malt', 'Caramel malt')
    """
    return _TRAILING_COLOUR.sub("", name.partition(",")[0])
