"""Every field that an author may write, described once: its name, its kind, its default, one sentence about it.

The reader, its problems and the manual's tables are made from these descriptions and from nothing else.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from urllib.parse import urlsplit

from gristbook.problems import Problems, nearest
from gristbook.reading.dates import days_meant
from gristbook.reading.quantity import NUMBER, Quantity, in_its_unit, quantity
from gristbook.reading.tree import Listing, Node, Table, Text


@dataclass(frozen=True, slots=True)
class Kind:
    """What may stand in a field: ``words`` names it with an example, the rest binds it.

    ``degrees`` binds a gravity that is told in °P or °Bx: the span of wort, strong enough to be told from water and
    short of a syrup, unless the kind says otherwise. Between ``celsius`` lie the temperatures (°C) that a number of
    degrees may mean whose scale nobody says.
    """

    words: str
    bases: tuple[str, ...] = ()
    choices: tuple[str, ...] = ()
    shape: str = "line"
    least: float = 0.0
    most: float = float("inf")
    degrees: tuple[float, float] = (0.25, 45.0)
    celsius: tuple[float, float] = (-30.0, 110.0)


WORDS = Kind("words")
DATE = Kind("a date, as 2026-02-01")
ADDRESS = Kind("an address, as https://example.org/beer/")
LINES = Kind("a list of lines", shape="lines")
TABLE = Kind("a table of words and values", shape="table")
TABLES = Kind("a list of tables", shape="lines")
MASS = Kind("a weight, as 250 g", ("kg",))
VOLUME = Kind("a volume, as 20 L", ("L",), least=0.01, most=1e6)
LOSS = Kind("a volume, as 1.5 L", ("L",), most=1e6)
TIME = Kind("a time, as 60 min", ("min",), most=2880)
DAYS = Kind("a time, as 10 days", ("min",), most=1440 * 3660)
TEMPERATURE = Kind("a temperature, as 67 °C", ("°C",), least=-30, most=110)
OF_A_MASH = replace(TEMPERATURE, celsius=(30, 88))
OF_BEER = replace(TEMPERATURE, celsius=(-5, 45))
EFFICIENCY = Kind("a share, as 72 % ± 4", ("fraction",), least=0.01, most=1.0)
SHARE = Kind("a share, as 4.5 %", ("fraction",), most=1.0)
ALPHA = Kind("a share, as 4.5 %, to 25 % in cones and pellets", ("fraction",), most=0.25)
"""No variety has more than about 22 % (common practice, no source)."""
BOIL_OFF = Kind("a rate, as 3 L/h", ("L/h",), most=1e5)
ABSORPTION = Kind("litres a kilogram, as 1.0 L/kg", ("L/kg",), most=5.0)
THICKNESS = Kind("litres a kilogram, as 2.7 L/kg", ("L/kg",), least=1.0, most=15.0)
ALTITUDE = Kind("a height, as 40 m", ("m",), least=-450, most=5500)
GRAVITY = Kind("a gravity, as 1.048", ("", "°P"), least=1.001, most=1.2)
COLOUR = Kind("a malt colour, as 60 °L or 158 EBC", ("°L", "EBC malt"), most=2000)
BITTERNESS = Kind("a bitterness, as 30 IBU", ("IBU", ""), most=1000)
VOLUMES = Kind("a carbonation, as 2.2 volumes", ("vol",), most=10)
SUGAR_DOSE = Kind("an amount of sugar, as 120 g or 7 g/L", ("kg", "g/L", "L"), least=1e-3, most=1000)
PRESSURE = Kind("a pressure, as 1 bar or 12 psi", ("bar",), most=4)
"""More than any fermenter of a home brewery is made for (common practice, no source)."""
SHOWN = Kind("a gravity, as 1.048, 11.9 °P or 12.4 °Bx", ("", "°P", "°Bx"), least=0.98, most=1.2, degrees=(-5.0, 45.0))
"""What an instrument may show in wort, beer or water: below 0.98 there is no beer."""
RATIO = Kind("a number, as 1.04", ("",), least=0.8, most=1.25)


@dataclass(frozen=True, slots=True)
class Field:
    """One field. ``default`` is what stands there when the author says nothing, in the author's own notation.

    ``also`` are other names that an author may write for it, parted by commas; ``unit`` is what a number is in that
    has none.
    """

    name: str
    kind: Kind
    sentence: str
    default: str = ""
    required: bool = False
    also: str = ""
    unit: str = ""


class Fields:
    """What an author wrote in a table, by field: problems have been filed, absent fields give their defaults."""

    def __init__(self, table: Table, fields: tuple[Field, ...], found: Mapping[str, Node], problems: Problems) -> None:
        self._table, self._problems, self._found = table, problems, found
        self._fields = {field.name: field for field in fields}

    def given(self, name: str) -> bool:
        """Whether the author wrote something in the field."""
        node = self._found.get(name)
        return node is not None and not _empty(node)

    def text(self, name: str) -> Text | None:
        """A field of one line as text, or its default; `None` where there is neither."""
        node = self._found.get(name)
        if isinstance(node, Text) and node.value:
            return node
        default = self._fields[name].default
        return Text(default, self._table.place, exact=False) if default else None

    def words(self, name: str) -> str:
        """A field of one line as a string, "" where it is absent; a choice or a date has been checked."""
        text, kind = self.text(name), self._fields[name].kind
        if text is None:
            return ""
        if kind.choices and text.value not in kind.choices:
            self._problems.error(
                text.place,
                f'{name} cannot be "{text.value}"',
                expected=" or ".join(kind.choices),
                suggestion=nearest(text.value, kind.choices),
            )
            return self._fields[name].default
        if kind is DATE:
            return day_of(text, self._problems)
        if kind is ADDRESS and not _is_address(text.value):
            self._problems.error(text.place, f'"{text.value}" is no address of a site', expected=ADDRESS.words)
            return ""
        return " ".join(text.value.split())

    def quantity(self, name: str) -> Quantity | None:
        """A field that is a quantity, or its default; `None` where there is neither or it could not be read."""
        text, field = self.text(name), self._fields[name]
        if text and field.unit and re.fullmatch(NUMBER, text.value):
            told = f"{text.value} {field.unit}"
            self._problems.warning(text.place, f"{name} {text.value} is taken as {told}", expected=told)
            text = Text(told, text.place, exact=False)
        return read_quantity(text, field.kind, self._problems) if text else None

    def lines(self, name: str) -> tuple[Node, ...]:
        """The items of a field that is a list; a section of one line may be that line."""
        node = self._found.get(name)
        if isinstance(node, Listing):
            return node.items
        return (node,) if node is not None and not _empty(node) else ()

    def texts(self, name: str, what: str, expected: str = "") -> Iterator[Text]:
        """The items of a list of words; what is none is a problem, which ``what`` tells."""
        for node in self.lines(name):
            if isinstance(node, Text):
                yield node
            else:
                self._problems.error(node.place, what, expected=expected)

    def table(self, name: str) -> Table | None:
        """A field that is a table, or `None`."""
        node = self._found.get(name)
        return node if isinstance(node, Table) else None


def field_called(fields: tuple[Field, ...], word: str) -> Field | None:
    """The field that goes by a word: its name or another, in capitals or small, with blanks, hyphens or underlines."""
    return _by_word(fields).get(_one_word(word))


def _by_word(fields: tuple[Field, ...]) -> dict[str, Field]:
    return {
        _one_word(word): it for it in fields for word in ((it.name, *it.also.split(", ")) if it.also else [it.name])
    }


@cache
def _one_word(word: str) -> str:
    return re.sub(r"[\s_-]+", " ", word.strip()).casefold()


def read_fields(table: Table, fields: tuple[Field, ...], problems: Problems, what: str) -> Fields:
    """The fields of a table; a key that ``what`` does not have, or one of the wrong shape, is a problem."""
    known, names = _by_word(fields), [field.name for field in fields]
    found: dict[str, Node] = {}
    meant: set[str] = set()
    lines: dict[str, int] = {}
    for key, node in table.entries:
        field = known.get(_one_word(key.value))
        if field is None:
            what_is_not, expected = f'{what} has no "{key.value}"', "one of " + ", ".join(sorted(names))
            meant.add(problems.unknown(key.place, what_is_not, key.value, names, expected=expected))
            continue
        if line := lines.get(field.name):
            problems.error(key.place, f'"{key.value}" is given twice', expected=f"it once (line {line} has it)")
            continue
        lines[field.name] = key.place.line
        if not (field.required and _empty(node)):
            meant.add(field.name)
        node = _row_of_a_table(node) if field.kind.shape == "table" else node
        if _shape_is_right(node, field.kind):
            found[field.name] = node
        else:
            problems.error(node.place, f"{key.value} cannot be {shape_of(node)}", expected=field.kind.words)
    for field in fields:
        if field.required and field.name not in meant:
            problems.error(table.place, f"{what} needs {field.name}", expected=f"{field.name}: {field.kind.words}")
    return Fields(table, fields, found, problems)


def read_tables(nodes: tuple[Node, ...], fields: tuple[Field, ...], problems: Problems, what: str) -> Iterator[Fields]:
    """The tables of a list, each with its fields; what is none is a problem."""
    for node in nodes:
        if isinstance(node, Table):
            yield read_fields(node, fields, problems, what)
        else:
            problems.error(node.place, f"{what} is a table", expected=f"{fields[0].name}: a name")


def read_quantity(text: Text, kind: Kind, problems: Problems, within: str = "") -> Quantity | None:
    """A text of a kind, in range; `None` with a problem filed otherwise."""
    told = _with_its_scale(text, kind, problems, within) if "°C" in kind.bases else text
    found = quantity(told, problems, kind.bases, kind.words, within) if told else None
    if found is None:
        return None
    least, most = kind.degrees if found.base in ("°P", "°Bx") else (kind.least, kind.most)
    if not least <= found.number <= most:
        low = found.number < least
        what, meant = f'"{found.text}" is too {"little" if low else "much"}', _meant(found, least, most)
        bound = f", at {'least' if low else 'most'} {in_its_unit(least if low else most, found)}"
        expected = kind.words if re.search(r"\bto\b", kind.words) else kind.words + bound
        problems.error(text.place, what, within=within, expected=expected, suggestion=meant)
        return None
    return found


def _with_its_scale(text: Text, kind: Kind, problems: Problems, within: str) -> Text | None:
    """A temperature in degrees with the scale that it must be in, and a warning; `None` where it may be either."""
    match = re.fullmatch(rf"(?P<number>[-−]?{NUMBER})\s*(?:deg(?:rees?)?|°)", text.value, re.IGNORECASE)
    if match is None:
        return text
    number, (least, most) = float(match["number"].replace("−", "-")), kind.celsius
    scales = {"°C": number, "°F": (number - 32) / 1.8}
    right = [f"{match['number']} {scale}" for scale, celsius in scales.items() if least <= celsius <= most]
    if len(right) != 1:
        problems.error(text.place, f'"{text.value}" says no scale', within=within, expected=" or ".join(right))
        return None
    problems.warning(text.place, f'"{text.value}" is taken as {right[0]}', within=within, expected=right[0])
    return Text(right[0], text.place, exact=False)


def _meant(found: Quantity, least: float, most: float) -> str:
    """What a number beyond its span was meant for: the same in °F, or with the point where gravities have it."""
    if found.base == "" and found.text.isdecimal() and least <= found.number / 1000 <= most < 2:
        return f"{found.number / 1000:.3f}"
    return _in_fahrenheit(found, least, most)


def _in_fahrenheit(found: Quantity, least: float, most: float) -> str:
    """The same number in °F, where that is meant: as °C it is too hot, and as °F it is not."""
    ends_in_c = found.base == "°C" and found.text[-1:] in ("C", "c") and found.number > most
    if not ends_in_c or not least <= (found.number - 32) / 1.8 <= most:
        return ""
    return f"{found.number:g} °F"


def _row_of_a_table(node: Node) -> Node:
    """A table of one row that stands on the line of its name, as `meant: dried yeast: it was to hand`."""
    if not isinstance(node, Text) or ": " not in node.value:
        return node
    end = node.value.index(": ")
    return Table(((node.part(0, end), node.part(end + 1)),), node.place)


def _shape_is_right(node: Node, kind: Kind) -> bool:
    if kind.shape == "table":
        return isinstance(node, Table)
    return kind.shape == "lines" or isinstance(node, Text)


def _empty(node: Node) -> bool:
    return isinstance(node, Text) and not node.value


def shape_of(node: Node) -> str:
    """What stands there instead of what belongs there, in words."""
    if isinstance(node, Text):
        return "words" if node.value else "empty"
    return "a list" if isinstance(node, Listing) else "a table"


def day_of(text: Text, problems: Problems) -> str:
    """The day that a text says, as 2026-02-01; "" with a problem filed where it says none, or one of two."""
    days = days_meant(text.value)
    if len(days) == 1:
        return days[0]
    what, expected = f'"{text.value}" is not a date', DATE.words
    if days:
        what, expected = f'"{text.value}" may be either of two days', " or ".join(days)
    problems.error(text.place, what, expected=expected)
    return ""


def is_date(written: str) -> bool:
    """Whether it is a day of the calendar, as 2026-02-01."""
    try:
        return date.fromisoformat(written).isoformat() == written
    except ValueError:
        return False


def _is_address(written: str) -> bool:
    """Whether pages can be published there: a place in the web that the name of a page can be added to."""
    try:
        parts = urlsplit(written)
        port = parts.port
    except ValueError:
        return False
    plain = (
        not re.search(r"[\s<>\"'\\^`{}|]", written)
        and not parts.query
        and not parts.fragment
        and "@" not in parts.netloc
    )
    return parts.scheme in ("http", "https") and bool(parts.hostname) and port != 0 and plain
