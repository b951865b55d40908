"""What must never be in beer, by the words for it: no author's pantry takes anything off this list."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from gristbook.pantry.fields import YES_NO
from gristbook.problems import Problems
from gristbook.reading.fields import LINES, WORDS, Field, read_fields
from gristbook.reading.tree import Listing, Table, Text, read_yaml

Words = tuple[str, ...]

FIELDS = (
    Field("harm", WORDS, "What it is or does, after a colon.", required=True),
    Field("names", LINES, "The words for it.", required=True),
    Field("but not", LINES, "Longer names with these words that mean something else."),
    Field("care", YES_NO, "Whether a little of it is brewed with: a warning, and no error.", default="no"),
    Field("source", WORDS, "Who says so.", required=True),
)


@dataclass(frozen=True, slots=True)
class Poison:
    """Something that poisons, by the ``name`` that was found; with ``care`` a little of it is brewed with."""

    name: str
    harm: str
    care: bool


@dataclass(frozen=True, slots=True)
class _Entry:
    """``heads`` are the words that its names begin with: without one of them there is nothing to look for."""

    heads: frozenset[str]
    names: tuple[Words, ...]
    others: tuple[Words, ...]
    harm: str
    care: bool


def poison_in(name: str) -> Poison | None:
    """The poison that an ingredient's name tells of, if any: whole words only, one form of a plural or the other.

    >>> poison_in("dried foxgloves").name, poison_in("unbleached wheat flour"), poison_in("ground ivy")
    ('foxglove', None, None)
    """
    words = _words(name)
    forms = frozenset(form for word in words for form in _forms(word))
    for entry in _entries():
        if forms.isdisjoint(entry.heads):
            continue
        left = words
        for other in entry.others:
            if (at := _place_of(other, left)) is not None:
                left = left[:at] + left[at + len(other) :]
        for known in entry.names:
            if _place_of(known, left) is not None:
                return Poison(" ".join(known), entry.harm, entry.care)
    return None


@cache
def _entries() -> tuple[_Entry, ...]:
    problems, path = Problems(), "poisons.yaml"
    tree = read_yaml(files("gristbook.pantry").joinpath("data", path).read_text("utf-8"), path, problems)
    found = tuple(_read(tree, problems)) if isinstance(tree, Listing) else ()
    if len(problems) or not found:
        raise ValueError("\n".join(map(str, problems)) or f"{path} is empty")
    return found


def _read(tree: Listing, problems: Problems) -> Iterator[_Entry]:
    for item in tree.items:
        if isinstance(item, Table):
            fields = read_fields(item, FIELDS, problems, "a poison")
            names, others = (
                tuple(_words(node.value) for node in fields.lines(key) if isinstance(node, Text))
                for key in ("names", "but not")
            )
            heads = frozenset(known[0] for known in names)
            yield _Entry(heads, names, others, fields.words("harm"), fields.words("care") == "yes")


def _words(name: str) -> Words:
    return tuple(re.findall(r"[^\W\d_]+", name.casefold().replace("'", "").replace("’", "")))


def _place_of(known: Words, words: Words) -> int | None:
    """Where some words stand first among others."""
    return next((at for at in range(len(words)) if _same(known, words[at : at + len(known)])), None)


def _same(known: Words, words: Words) -> bool:
    return len(known) == len(words) and all(ours in _forms(theirs) for ours, theirs in zip(known, words, strict=True))


def _forms(word: str) -> tuple[str, str, str]:
    """A word, and what it may be the plural of."""
    return word, word.removesuffix("s"), word.removesuffix("es")
