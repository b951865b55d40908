"""The file of a batch that has just been begun: the recipe and its plan as they stand, and blanks to fill in.

The blanks stand above what is kept, which is long, and which nobody has to read.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil, log10
from typing import TypeAlias

from gristbook.model.figures import words_of
from gristbook.model.recipe import Recipe
from gristbook.sheet.value import Value
from gristbook.text.saying import plain
from gristbook.text.writing import sections_of

Content: TypeAlias = "str | Sequence[str] | Mapping[str, Content]"
"""What may stand behind a key: words, lines, or a table; "" is a blank to be filled in."""

STEP = "  "

ONE_LINE = frozenset({"date", "style", "batch", "boil", "kettle", "original gravity", "carbonation"})
"""Sections that are a line and no list."""

FROZEN = "# as it stands today: leave it so, and nothing that changes later changes this batch"
FILL_IN = "# what you leave empty counts as not measured, and not as nothing"


@dataclass(frozen=True, slots=True)
class Blank:
    """A field to fill in: what stands in it already, if anything, and a word to guide the hand."""

    field: str
    words: str
    usual: str | tuple[str, ...] = ""


@dataclass(frozen=True, slots=True)
class Begun:
    """What is known of a batch when it is begun. ``edition`` is the edition's line, "" for the recipe as written."""

    brewed: str
    brewhouse: str
    edition: str
    yeast: str
    recipe: Recipe
    plan: Mapping[str, Value]
    us: bool

    def file(self, blanks: Sequence[Blank], afterwards: Sequence[Blank], prose: str = "") -> str:
        """The whole file; ``afterwards`` are the blanks that are no measurements, and ``prose`` what is told of it."""
        head = {"brewed": self.brewed, "brewhouse": self.brewhouse, "edition": self.edition, "yeast": self.yeast}
        lines = [
            "---",
            *written({name: words for name, words in head.items() if words}),
            *_under("measured", FILL_IN, _blanks(blanks, STEP)),
            *_blanks(afterwards, ""),
            *_under("recipe", FROZEN, written(self._frozen(), STEP)),
            "---",
        ]
        return "\n".join((*lines, *(("", prose) if prose else ()))) + "\n"

    def _frozen(self) -> Mapping[str, Content]:
        front: dict[str, Content] = {"title": self.recipe.title}
        for name, lines in sections_of(self.recipe, us=self.us):
            front[name] = lines[0] if name in ONE_LINE else lines
        return front | {"plan": {words_of(name): figure(value) for name, value in self.plan.items()}}


def figure(value: Value) -> str:
    """A figure as a batch keeps it: its number, its unit (none is a gravity's), and what nine brews in ten lie between.

    >>> from gristbook.sheet.value import given
    >>> figure(given(20.06, "L", "batch", words="the recipe", ends=(-0.3, 0.4)))
    '20.06 L (19.76 to 20.46)'
    """
    said = " ".join(filter(None, (_signed(value.number), "" if value.unit == "SG" else value.unit)))
    low, high = (_signed(end, _digits(value)) for end in (value.low, value.high))
    return f"{said} ({low} to {high})" if value.low < value.high else said


def _digits(value: Value) -> int:
    """As many as show a hundredth of the range."""
    width = value.high - value.low
    largest = max(abs(value.low), abs(value.high), width)
    return max(3, 3 + ceil(log10(largest / width))) if width > 0 else 9


def _signed(number: float, digits: int = 9) -> str:
    return f"-{plain(-number, digits, 9)}" if number < 0 else plain(number, digits, 9)


def _under(key: str, words: str, lines: Iterator[str]) -> Iterator[str]:
    yield f"{quoted(key)}:  {words}"
    yield from lines


def _blanks(blanks: Sequence[Blank], indent: str) -> Iterator[str]:
    """Blanks with their words in a column, and what fills them in."""
    heads = [
        f"{indent}{blank.field}: {quoted(blank.usual) if isinstance(blank.usual, str) and blank.usual else ''}".rstrip()
        for blank in blanks
    ]
    width = max(map(len, heads), default=0) + 2
    for head, blank in zip(heads, blanks, strict=True):
        yield f"{head.ljust(width)}# {blank.words}" if blank.words else head
        if not isinstance(blank.usual, str):
            yield from (f"{indent}{STEP}- {quoted(line)}" for line in blank.usual)


def written(content: Mapping[str, Content], indent: str = "") -> Iterator[str]:
    """Front matter as a person would type it, deeper tables under theirs: our reader reads it as the same words."""
    for key, value in content.items():
        if isinstance(value, str):
            yield f"{indent}{quoted(key)}: {quoted(value)}".rstrip() if value else f"{indent}{quoted(key)}:"
        elif isinstance(value, Mapping):
            yield f"{indent}{quoted(key)}:"
            yield from written(value, indent + STEP)
        else:
            yield f"{indent}{quoted(key)}:"
            yield from (f"{indent}{STEP}- {quoted(line)}" for line in value)


def quoted(words: str) -> str:
    """Words as they stand where YAML lets them, else in quotation marks."""
    marks = ": " in words or " #" in words or words.endswith(":")
    if words[:1].isalnum() and words.isprintable() and not marks:
        return words
    if words.isprintable():
        return "'" + words.replace("'", "''") + "'"
    return '"' + "".join(map(_escaped, words)) + '"'


def _escaped(letter: str) -> str:
    if letter in '"\\':
        return f"\\{letter}"
    return letter if letter.isprintable() else f"\\U{ord(letter):08X}"
