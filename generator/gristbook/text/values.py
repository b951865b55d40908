"""From what was read to a `Value`: who said the number, where, and how sure it is."""

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from typing import Any, Generic

from gristbook.pantry.doubts import usual as usual_doubt
from gristbook.pantry.fields import CEREALS
from gristbook.pantry.lookup import Match, Shelf, nearest_of, typed
from gristbook.pantry.names import VOCABULARIES
from gristbook.pantry.pantry import SECTIONS, Pantry
from gristbook.pantry.poisons import poison_in
from gristbook.pantry.records import R, Spread
from gristbook.problems import Problems
from gristbook.reading.commas import without_its_end
from gristbook.reading.line import Broken, Line
from gristbook.reading.lines import read_line
from gristbook.reading.notes import in_brackets
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import NUMBER, SIZED, Quantity, Unreadable
from gristbook.reading.spoken import IN_WORDS
from gristbook.reading.tree import Node, Text
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value, given
from gristbook.text.assumed import words as words_of
from gristbook.text.coloured import COLOURED
from gristbook.text.otherwise import in_the_usual_order
from gristbook.text.saying import IN_US
from gristbook.text.vocabulary import COUNTED, LINES, UNNAMED, WITHOUT_COMMAS

SHELVES: tuple[tuple[str, str], ...] = (
    ("malts", "malts"),
    ("sugars", "sugars"),
    ("fruits", "fruit"),
    ("extracts", "extracts"),
    ("hops", "hops"),
    ("yeasts", "yeast"),
    ("finings", "finings and spices"),
    ("salts", "water"),
    ("acids", "water"),
    ("waters", "water"),
)
"""Every shelf that a recipe is made from, and the section of a recipe where it belongs."""

UNSAID = re.compile(
    r"\b(?:no|not|without)\s+\w+|\biodine(?=[ -](?:test|check|negative|says|is|shows|clear))", re.IGNORECASE
)
"""What names something that does not go in, as a drop of iodine that tells of a sample whether its starch is gone."""

_LED = r"(?:(?:also|and|another|plus|then|with)\s+)*"
_AMOUNT = re.compile(rf"^\s*{_LED}(?:{NUMBER}\s*{SIZED}\w+\s+(?:of\s+)?|{IN_WORDS}\s+\w+\s+of\s+)")

GRAINS = frozenset({"malt", "grain", *CEREALS, "oat"})
"""Without one of these, what is a part of a malt's name may be food: chocolate, biscuits, caramel."""


@dataclass(frozen=True, slots=True)
class Found(Generic[R]):
    """What a line's name means: a record of the pantry, or one of what its line says.

    ``own_words`` are the author's own name, where it says more than the pantry's; ``assumed`` what is taken of a thing
    that no pantry knows.
    """

    record: R
    own_words: str = ""
    assumed: str = ""


@dataclass(frozen=True, slots=True)
class Desk:
    """What every reader of a book needs: the pantry to look things up in, and the collector of problems."""

    pantry: Pantry
    problems: Problems

    def line(self, node: Node, section: str, *, warned: bool = True) -> Line:
        """A line of a section of a recipe; `Unreadable` where it cannot be read, or names a poison.

        Its notes are ``warned`` of here, or by whom it is for.
        """
        if isinstance(node, Text):
            node = in_the_usual_order(node, section)
        named, uncounted = section not in UNNAMED, section in WITHOUT_COMMAS
        shelves = self._shelves(section)
        try:
            line = read_line(
                node,
                LINES[section],
                self.problems,
                named=named,
                runs_on=not named,
                is_name=self.names_of(section),
                counts=lambda name: section in COUNTED and self._is_counted(name),
                of_name=lambda name, piece: (
                    (uncounted and piece[0].isdigit()) or any(shelf.adds(name, piece) for shelf in shelves)
                ),
            )
        except Broken as broken:
            self._misspelt(broken.line, section)
            raise
        if slip := next((slip for note in line.notes for slip in self._slips(line, note, section)), None):
            raise slip
        poison = poison_in(UNSAID.sub("", f"{line.name.value}, {line.note}"))
        if poison is None:
            if warned:
                self.warn_of_notes(line)
            return line
        harm = f"{poison.name}: {poison.harm}"
        if poison.care:
            line.warning(harm, "very little of it, or none", at=line.name)
            return line
        self.problems.error(line.name.place, harm, within=line.whole, expected="none of it in a beer", safety=True)
        raise Unreadable

    def warn_of_notes(self, line: Line) -> None:
        """Tell what of a line is not reckoned."""
        if line.notes:
            told = "; ".join(note.value for note in line.notes)
            line.warning(f'"{told}" is shown as a note, and not reckoned', at=line.notes[0])

    def _shelves(self, section: str) -> list[Shelf[Any]]:
        return [getattr(self.pantry, shelf) for shelf, other in SHELVES if other == section]

    def names_of(self, section: str) -> Callable[[str], bool]:
        """Whether words are the name of a thing of a section."""
        shelves, coloured = self._shelves(section), section == "malts"
        return lambda name: (
            any(shelf.names(name) for shelf in shelves) or (coloured and COLOURED.fullmatch(name) is not None)
        )

    def _slips(self, line: Line, note: Text, section: str) -> Iterator[Unreadable]:
        """The error, filed, of a note that is another thing, or all but a part of the name, as "atenuative"."""
        if fits(r"(?:or\b|/).*", note.value):
            return
        shelves = self._shelves(section)
        same = {record.name for shelf in shelves for record in shelf.look_up(line.name.value).found}
        named, aside = note, in_brackets(note, line.whole)
        if amount := _AMOUNT.match(note.value):  # "500 g munich malt from the sack"
            named, _ = without_its_end(note.part(amount.end()), LINES[section], self.names_of(section))
            aside = False
        other = {record.name for shelf in shelves for record in shelf.look_up(named.value).found}
        if other and not aside and not same & other:
            yield line.error(f'"{note.value}" is a second thing', "a line for each", at=note)
        name = f"{line.name.value} {note.value}"
        if near := nearest_of(name, [shelf.look_up(name) for shelf in shelves]):
            yield line.error(f'"{note.value}" says nothing here', at=note, suggestion=near)

    def belongs(self, node: Node, section: str, there: Shelf[Any], here: Shelf[Any]) -> bool:
        """Whether a line of another section, whose own shelf is ``here``, is of a thing of ``section``."""
        if not isinstance(node, Text) or here.look_up(name_in(node)).exact or not there.shares_a_word(node.value):
            return False
        with suppress(Unreadable):
            name = replace(self, problems=Problems()).line(node, section).name.value
            theirs, ours = there.look_up(name), here.look_up(name)
            return bool(theirs.found) and (not ours.found or (theirs.exact and not ours.exact))
        return False

    def _is_counted(self, name: str) -> bool:
        """Whether a number counts a thing by this name; a unit that nobody knows stands before a name that is known."""
        shelf = self.pantry.finings
        first, _, rest = name.partition(" ")
        return bool(shelf.look_up(name).found) or first[:1].isupper() or not shelf.look_up(rest).exact

    def _misspelt(self, line: Line, section: str) -> None:
        """File the error of a name that is all but one of the section's, in a line with other faults."""
        for shelf, other in SHELVES:
            match: Match[Any] = getattr(self.pantry, shelf).look_up(line.name.value)
            if other == section and not match.found and (near := nearest_of(line.name.value, [match])):
                what = SECTIONS[shelf].one.partition(" ")[2]
                line.error(f'unknown {what} "{line.name.value}"', at=line.name, suggestion=near)

    def only(
        self,
        line: Line,
        match: Match[R],
        what: str,
        needs: str = "",
        assume: Callable[[Line], R | None] = lambda _: None,
    ) -> Found[R]:
        """What a line's name means: the usual one of several, with a warning, or what its line says of a stranger.

        ``needs`` is what a line has to say of a thing that the pantry does not know, and ``assume`` makes it a record.

        Raises
        ------
        Unreadable
            It is none, or may be several; the problem has been filed.
        """
        name, section = line.name.value, what if what in ("yeast", "fruit") else f"{what}s"
        if match.usual:
            others = match.names if len(match.found) > 1 else ""
            line.warning(f'"{name}" may be several: {typed(match.usual.name)} is taken', others, at=line.name)
            return Found(match.usual)
        if match.only:
            return Found(match.only, own_words=" ".join(name.split()) if match.aside else "")
        if match.found:
            raise line.error(f'"{name}" may be several', match.names, at=line.name)
        record = None if self.elsewhere(line, section) else assume(line)
        if record is None:
            expected = f"a {what} of the pantry" + (f", or {needs}" if needs else "")
            raise self.unknown(line, [match], f'unknown {what} "{name}"', section, expected)
        taken = words_of(record)
        line.warning(f'"{name}" is in no pantry: taken as {taken}', at=line.name, suggestion=match.nearest)
        return Found(record, assumed=taken)

    def unknown(self, line: Line, matches: Sequence[Match[Any]], what: str, section: str, expected: str) -> Unreadable:
        """File the error of a name that ``section`` does not have: where it belongs, what is near, what is expected."""
        if not self.elsewhere(line, section):
            near = nearest_of(line.name.value, matches)
            line.error(what, "" if near else expected, at=line.name, suggestion=near)
        return Unreadable()

    def elsewhere(self, line: Line, section: str, why: str = "") -> bool:
        """Whether another section than a line's own has its name; the error has been filed then."""
        name = line.name.value
        for shelf, other in SHELVES:
            match: Match[Any] = getattr(self.pantry, shelf).look_up(name)
            of_grain = match.exact or not GRAINS.isdisjoint(VOCABULARIES["malts"].words(name))
            if other != section and match.found and (shelf != "malts" or of_grain):
                line.error(f'"{name}" is {SECTIONS[shelf].one}{why}', f"it under {other}", at=line.name)
                return True
        return False


def name_in(node: Node) -> str:
    """The name in a line that is written as most are: behind an amount, before the first comma."""
    return re.split(r"\s*[,(]|\s+if\s", _AMOUNT.sub("", node.value))[0] if isinstance(node, Text) else ""


def our_desk() -> Desk:
    """A desk of our own pantry alone, with nobody to hear of a problem."""
    return Desk(Pantry.load(None, Problems()), Problems())


def prepared(line: Line) -> list[str]:
    """What a line says of a thing that no figure counts, in the author's words."""
    return [text.value for key in ("state", "prepared") if (text := line.get(key))]


def in_days(read: Quantity, label: str) -> Value:
    """A time as an author wrote it, in days."""
    return said(read, label, unit="d", factor=1 / 1440)


def said(
    read: Quantity,
    label: str,
    *,
    unit: str = "",
    factor: float = 1.0,
    by: By = By.AUTHOR,
    origin: str = "the recipe",
    usual: str = "",
    doubt: str = "",
    metric: bool = False,
) -> Value:
    """A number as an author wrote it, in ``unit`` (else its base), ``factor`` of them in a base.

    What stands behind a ± holds nine brews in ten; without one it is as sure as its kind ``usual``ly is.
    """
    number, words, ends = read.number * factor, f"{origin}: {read.text}", None
    if read.tolerance is not None:
        ends = (-read.tolerance * factor, read.tolerance * factor)
    elif usual:
        row = usual_doubt(usual)
        ends, words = row.about(number), f"{words}; as sure as {row.words} is: {row.source}"
    return given(
        number,
        unit or read.base,
        label,
        words=words,
        by=by,
        written=read.text,
        place=read.place,
        ends=ends,
        doubt=doubt,
        metric=metric,
        us=IN_US.search(read.text) is not None,
    )


def by_default(number: float, unit: str, label: str, why: str, usual: str = "") -> Value:
    """A number that nobody wrote, decided by the reader of the text; it is as sure as its kind ``usual``ly is."""
    ends = usual_doubt(usual).about(number) if usual else None
    return given(number, unit, label, words=f"by default: {why}", by=By.DEFAULT, ends=ends)


def from_pantry(spread: Spread, label: str, *, unit: str = "", factor: float = 1.0, usual: str = "") -> Value:
    """A number of the pantry in ``unit`` (else its own), ``factor`` of them in one of the pantry's.

    Nine in ten lie between its low and its high; where one figure stands alone, it is as sure as its kind ``usual``ly
    is.
    """
    low, high, words = spread.low - spread.typical, spread.high - spread.typical, f"the pantry: {spread.source}"
    if usual and low == high == 0:
        row = usual_doubt(usual)
        (low, high), words = row.about(spread.typical), f"{words}; as sure as {row.words} is: {row.source}"
    return given(
        spread.typical * factor,
        unit or spread.unit,
        label,
        words=words,
        by=By.PANTRY,
        place=spread.place,
        ends=(low * factor, high * factor),
    )


def unread(unit: str) -> Value:
    """Stands where a number could not be read; its file has an error and goes no further."""
    return given(0.0, unit, "not read", words="not read")
