"""A file of readings, as an instrument in the fermenter wrote it, to the model.

What may mean two things is asked about and never guessed: which of two numbers is the day, which column is which.
"""

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import isfinite, nan
from pathlib import Path

from gristbook.model.batch import Log, LogScale
from gristbook.problems import Place, Problems, nearest
from gristbook.reading import fields as f
from gristbook.reading.files import read_text
from gristbook.reading.line import Line
from gristbook.reading.lines import read_line
from gristbook.reading.quantity import Unreadable
from gristbook.reading.tree import Node
from gristbook.refusal import Refusal
from gristbook.text.batch_vocabulary import EXTRACT_SCALES, LOG, LOG_MARK, LOG_PARTS, SCALES

USUAL = {"time": "time", "day": "date", "gravity": "gravity", "temperature": "temperature"}
"""The headings that are looked for where the batch names none; in capitals or small.

A day may stand apart from its time, or have none."""

SUFFIXES = (".csv", ".tsv", ".txt")

COLDEST, HOTTEST = -10.0, 50.0
"""What a fermenter can be, in °C."""
DOUBTFUL = 36.0
"""Half the readings above this, and no unit said: they may be °F of a cold beer."""
FIRST_LINES = 40
"""The headings stand among these; some instruments write about themselves first."""

_DAY_OF_MONTH = re.compile(
    r"(?P<first>\d{1,2})[/.-](?P<second>\d{1,2})(?:[/.-](?P<year>\d{4})|[/.](?P<short>\d{2}))"
    r"(?:[ T,]+(?P<hour>\d{1,2}):(?P<minute>\d{2})(?::(?P<second_of>\d{2})(?:\.\d+)?)?\s*(?P<half>[AaPp][Mm])?)?"
)
_YEAR_FIRST = re.compile(r"^(\d{4})/(\d{2})/")
_SINCE_1970 = re.compile(r"\d{10}(?:\.\d+)?|\d{13}")


class _Ambiguous(Exception):
    """A date that may be two; the batch has to say which number is the day."""


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where each thing stands in a row, `None` where nobody wrote it, and what parts the rows.

    ``moment`` is where the day and the time stand, in one column or in two; ``brew`` where the name of the brew does.
    """

    moment: tuple[int, ...]
    gravity: int | None
    temperature: int | None
    brew: int | None
    mark: str
    many: int
    fahrenheit: bool
    scale: LogScale
    day_first: bool | None

    def brew_of(self, cells: list[str]) -> str:
        """Whose row it is, "" where none says so."""
        return _plain(cells[self.brew]) if self.brew is not None and self.brew < len(cells) else ""

    def read(self, cells: list[str]) -> tuple[datetime, float, float]:
        """A row of the file.

        Raises
        ------
        Refusal
            There is nothing that can be meant.
        """
        if len(cells) <= max(*self.moment, self.gravity or 0, self.temperature or 0):
            raise Refusal("too short")
        if len(cells) > self.many and any(cells[self.many :]):
            raise Refusal("more cells than headings")
        when = _instant(" ".join(cells[at].strip() for at in self.moment).strip(), self.day_first)
        gravity, degrees = self._number(cells, self.gravity), self._number(cells, self.temperature)
        if self.fahrenheit:
            degrees = (degrees - 32) / 1.8
        if gravity != gravity and degrees != degrees:
            raise Refusal("nothing was read")
        least, most = (f.SHOWN.least, f.SHOWN.most) if self.scale == "SG" else f.SHOWN.degrees
        if gravity == gravity and not least <= gravity <= most:
            raise Refusal(f"{gravity:g} is no gravity ({self.scale})")
        if degrees == degrees and not COLDEST <= degrees <= HOTTEST:
            raise Refusal(f"{degrees:.4g} °C is no fermenter")
        return when, gravity, degrees

    def _number(self, cells: list[str], at: int | None) -> float:
        """What stands in a column, NaN where nothing does; a comma is a decimal where it parts no cells."""
        written = cells[at].strip() if at is not None else ""
        try:
            return float(written if self.mark == "," else written.replace(",", ".")) if written else nan
        except ValueError:
            raise Refusal(f'"{written[:40]}" is no number') from None


def read_log(node: Node, folder: Path, within: str, problems: Problems) -> Log:
    """The log that a batch names; `Unreadable` where it cannot be read.

    Parameters
    ----------
    folder : the book's folder
    within : the batch's own folder, in it
    """
    line = read_line(node, LOG_PARTS, problems, named=False, mark=LOG_MARK)
    name = line.get("file")
    if name is None:
        raise line.error("no file", LOG.words)
    if "/" in name.value or "\\" in name.value:
        raise line.error("a log lies beside its batch", "the file's name alone", at=name)
    there = sorted(path.name for path in (folder / within).iterdir() if path.suffix.casefold() in SUFFIXES)
    if name.value not in there:
        raise line.error(f"no {name.value} beside this batch", at=name, suggestion=nearest(name.value, there))
    path = f"{within}/{name.value}"
    source = read_text(folder, path, problems)
    if source is None:
        raise Unreadable
    return _Reader(line, path).log(name.value, source)


@dataclass(frozen=True, slots=True)
class _Reader:
    """A file in the terms of the batch's line about it."""

    line: Line
    path: str

    def log(self, name: str, source: str) -> Log:
        """Every row that can be read, in the order of time; one problem tells of all the others."""
        rows = source.replace("\0", "").split("\n")
        first, columns = self._columns(rows)
        good: list[tuple[datetime, float, float]] = []
        bad: list[tuple[int, str]] = []
        wanted, others = self._only()[0], set[str]()
        reader = csv.reader(rows[first:], delimiter=columns.mark)
        try:
            for cells in reader:
                if not any(cell.strip() for cell in cells):
                    continue
                if columns.brew_of(cells) != wanted:
                    others.add(columns.brew_of(cells))
                    continue
                try:
                    good.append(columns.read(cells))
                except Refusal as refusal:
                    bad.append((first + reader.line_num, str(refusal)))
        except _Ambiguous as date:
            what = f'nothing says which number of "{date}" is the day'
            self._error(first + reader.line_num, what, '"day first" or "month first" in the batch\'s log')
            raise Unreadable from None
        except csv.Error as fault:
            self._error(first + 1, f"this is no table: {fault}")
            raise Unreadable from None
        if others and not good and not bad:
            there = ", ".join(f'"{other}"' for other in sorted(others)[:8])
            raise self.line.error(f'no row is of "{wanted}"', there, at=self.line.get("only"))
        return self._whole(name, good, bad, columns)

    def _whole(
        self, name: str, good: list[tuple[datetime, float, float]], bad: list[tuple[int, str]], columns: _Columns
    ) -> Log:
        """The readings as a log."""
        if bad:
            line, why = bad[0]
            many = f"{len(bad)} of {len(good) + len(bad)} rows cannot be read and are left out"
            file = self.line.problems.warning if good else self.line.problems.error
            file(Place(self.path, line), f"{many}; the first: {why}")
        elif not good:
            self._error(1, "no reading in this file")
        if not good:
            raise Unreadable
        good.sort(key=lambda moment: moment[0])
        times, gravities, temperatures = zip(*good, strict=True)
        warm = sorted(degrees for degrees in temperatures if isfinite(degrees))
        said = self.line.get("scale") is not None or columns.fahrenheit
        if warm and not said and warm[len(warm) // 2] > DOUBTFUL:
            what = f"most of {name} is warmer than {DOUBTFUL:g} °C"
            self.line.warning(what, '"°F" here, or "°C"')
        return Log(name, times, gravities, temperatures, self.line.place, columns.scale)

    def _error(self, number: int, what: str, expected: str = "") -> None:
        """File an error of a line of the file."""
        self.line.problems.error(Place(self.path, number), what, expected=expected)

    def _columns(self, rows: list[str]) -> tuple[int, _Columns]:
        """How many lines stand above the readings, and what stands in which column."""
        said = {key: self._heading(key) for key in USUAL} | {"brew": self._only()[1]}
        asked = {key for key in USUAL if self.line.get(key)} | ({"brew"} if said["brew"] else set())
        headings: list[str] = []
        for number, row in enumerate(rows[:FIRST_LINES]):
            mark = max(",;\t", key=row.count)
            cells = [_plain(cell) for cell in next(iter(_lenient(row, mark)), [])]
            at = {key: cells.index(words) if words in cells else None for key, words in said.items()}
            if any(at[key] is None for key in asked) or (at["time"] is None and at["day"] is None):
                headings = headings or cells
                continue
            if at["gravity"] is None and at["temperature"] is None:
                headings = cells
                break
            order = self.line.get("order")
            return number + 1, _Columns(
                tuple(column for column in (at["day"], at["time"]) if column is not None),
                gravity=at["gravity"],
                temperature=at["temperature"],
                brew=at["brew"],
                mark=mark,
                many=len(cells),
                fahrenheit=self._fahrenheit(at["temperature"], cells),
                scale=self._scale(at["gravity"], cells),
                day_first=None if order is None else order.word == "day first",
            )
        raise self._no_column(said, asked | {"time"}, headings)

    def _only(self) -> tuple[str, str]:
        """Which of several brews this one is, and the heading of the column that says so."""
        text = self.line.get("only")
        which, _, heading = text.value.rpartition(" in ") if text else ("", "", "")
        return _plain(which), _plain(heading)

    def _scale(self, at: int | None, headings: list[str]) -> LogScale:
        """What the batch says of the gravities, or else their heading does."""
        said = self.line.get("gravity scale")
        if said is not None:
            return EXTRACT_SCALES[said.value.upper()]
        return "°P" if at is not None and re.search(r"°\s?p\b|\(p\)|plato", headings[at]) else "SG"

    def _fahrenheit(self, at: int | None, headings: list[str]) -> bool:
        """Whether the batch says so of the temperatures, or else their heading does."""
        scale = self.line.get("scale")
        if scale is not None:
            return SCALES[scale.value.upper()] == "°F"
        return at is not None and re.search(r"°\s?f\b|\(f\)", headings[at]) is not None

    def _heading(self, key: str) -> str:
        text = self.line.get(key)
        return _plain(text.value) if text else USUAL[key]

    def _no_column(self, said: dict[str, str], asked: set[str], headings: list[str]) -> Unreadable:
        missing = next((key for key in said if key in asked and said[key] not in headings), "")
        text = self.line.get("only" if missing == "brew" else missing)
        what = f'no column "{said[missing]}"' if missing else "no column of gravities or of temperatures"
        near = nearest(said[missing], headings) if missing and text else ""
        there = ", ".join(f'"{heading}"' for heading in headings[:12] if heading)
        expected = "" if near else f"{missing or 'gravity'} in one of {there}" if there else "a line of headings"
        return self.line.error(f"{what} in {self.path.rpartition('/')[2]}", expected, at=text, suggestion=near)


def _lenient(row: str, mark: str) -> Iterator[list[str]]:
    try:
        yield from csv.reader([row], delimiter=mark)
    except csv.Error:
        return


def _plain(heading: str) -> str:
    """A heading as it is compared: without its quotation marks, in small letters."""
    return " ".join(heading.strip().strip('"').split()).casefold()


def _instant(written: str, day_first: bool | None) -> datetime:
    """A moment by the clock that wrote it, noon of a day; what it says of the world's other clocks is left out.

    Raises
    ------
    Refusal
        It is none.
    """
    if _SINCE_1970.fullmatch(written):
        seconds = float(written) / (1000 if len(written) == 13 and "." not in written else 1)
        return datetime(1970, 1, 1) + timedelta(seconds=seconds)
    try:
        moment = datetime.fromisoformat(_YEAR_FIRST.sub(r"\1-\2-", written)).replace(tzinfo=None)
        return moment if ":" in written else moment.replace(hour=12)
    except ValueError:
        pass
    match = _DAY_OF_MONTH.fullmatch(written)
    if match is None:
        raise Refusal(f'"{written[:40]}" is no time')
    if day_first is None:
        raise _Ambiguous(written)
    return _of_match(match, day_first)


def _of_match(match: re.Match[str], day_first: bool) -> datetime:
    one, two = int(match["first"]), int(match["second"])
    day, month = (one, two) if day_first else (two, one)
    hour, half = int(match["hour"] or 12), (match["half"] or "").casefold()
    if half:
        hour = hour % 12 + (12 if half == "pm" else 0)
    year = int(match["year"] or f"20{match['short']}")
    try:
        return datetime(year, month, day, hour, int(match["minute"] or 0), int(match["second_of"] or 0))
    except ValueError:
        raise Refusal(f'"{match[0]}" is no day and time') from None
