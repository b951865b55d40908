"""A line taken apart: what may stand in it, and what was found in it."""

import re
from collections.abc import Mapping, Set
from dataclasses import dataclass

from gristbook.problems import Place, Problems
from gristbook.reading.apart import AMOUNT, BEHIND
from gristbook.reading.fields import Kind, read_quantity
from gristbook.reading.notes import NOTE
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import NUMBER, Quantity, Unreadable
from gristbook.reading.tree import Text

_BARE = re.compile(NUMBER)


@dataclass(frozen=True, slots=True)
class Property:
    """One thing that may stand in a line. ``pattern`` finds it in a part; its group `value` is what is read.

    ``key`` is its word in the mapping form, ``example`` a part as a brewer would write it, which may stand ``again``.
    ``unit`` is what a number of it is in that has none.
    """

    key: str
    kind: Kind
    pattern: str
    example: str
    sentence: str
    again: bool = False
    unit: str = ""

    def found_in(self, part: str) -> re.Match[str] | None:
        """The whole of a part as this property."""
        return fits(self.pattern, part)

    def told(self, part: Text, match: re.Match[str]) -> Text:
        """What a part says of it, with its unit."""
        value = part.part(match.start("value"), match.end("value"))
        bare = self.unit and _BARE.fullmatch(value.value)
        return Text(f"{value.value} {self.unit}", value.place, exact=False) if bare else value


LATER = Property(
    AMOUNT,
    Kind("an amount, as 5 g"),
    rf"(?P<value>{BEHIND})",
    "5 g",
    "The amount, where the line does not begin with it.",
)


@dataclass(frozen=True, slots=True)
class Line:
    """A line taken apart: texts by property, still untyped, each with its place; what is wrong in it is filed by it.

    ``notes`` are parts that say nothing that counts.
    """

    whole: str
    place: Place
    amount: Quantity | None
    name: Text
    parts: Mapping[str, Text]
    kinds: Mapping[str, Kind]
    problems: Problems
    notes: tuple[Text, ...] = ()

    def get(self, key: str) -> Text | None:
        """The text of a property, or `None`."""
        return self.parts.get(key)

    @property
    def note(self) -> str:
        """What it says that no figure counts, in the author's words."""
        said = [self.parts[NOTE]] if NOTE in self.parts else []
        return "; ".join(text.value for text in (*said, *self.notes))

    @property
    def says(self) -> Set[str]:
        """The properties that it has, but for what is only noted."""
        return self.parts.keys() - {NOTE}

    def quantity(self, key: str) -> Quantity | None:
        """A property that is a quantity; `None` where it is absent or cannot be read (the problem has been filed)."""
        return self.read(self.get(key), self.kinds[key])

    def read(self, text: Text | None, kind: Kind) -> Quantity | None:
        """A piece of the line as a quantity, in the same way."""
        return read_quantity(text, kind, self.problems, self.whole) if text is not None else None

    def pieces(self, text: Text, pattern: str, kind: Kind, what: str = "") -> dict[str, Text] | None:
        """A piece of the line by the groups of a pattern; `None` with a problem filed where that does not fit."""
        match = fits(pattern, text.value)
        if match is None:
            self.error(f'"{text.value}" is not {what or kind.words.partition(",")[0]}', kind.words, at=text)
            return None
        return {name: text.part(*match.span(name)) for name, found in match.groupdict().items() if found}

    def error(
        self, what: str, expected: str = "", *, at: Text | Quantity | None = None, suggestion: str = ""
    ) -> Unreadable:
        """File an error of the whole line, or of a piece of it, and give what ends the reading of the line."""
        place = at.place if at else self.place
        self.problems.error(place, what, within=self.whole, expected=expected, suggestion=suggestion)
        return Unreadable()

    def warning(
        self, what: str, expected: str = "", *, at: Text | Quantity | None = None, suggestion: str = ""
    ) -> None:
        """File a warning of the whole line, or of a piece of it."""
        place = at.place if at else self.place
        self.problems.warning(place, what, within=self.whole, expected=expected, suggestion=suggestion)


class Broken(Unreadable):
    """A line of which some parts say nothing; their problems have been filed, and the rest of it stands in ``line``."""

    def __init__(self, line: Line) -> None:
        self.line = line
