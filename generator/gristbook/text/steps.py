"""What the lines of the mash and of the ferment have in common: one after another, and what is usual in their roles."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from gristbook.problems import Problems
from gristbook.reading.apart import line_with_a_colon
from gristbook.reading.commas import property_of, without_asides
from gristbook.reading.line import Line
from gristbook.reading.lines import readable
from gristbook.reading.notes import measures
from gristbook.reading.phrases import parted
from gristbook.reading.quantity import Quantity, Unreadable
from gristbook.reading.tree import Node, Table, Text
from gristbook.reading.twice import once_told
from gristbook.sheet.origin import By
from gristbook.sheet.value import Value
from gristbook.text.parts.steps import PARTI_GYLE, Usual
from gristbook.text.values import Desk, said
from gristbook.text.vocabulary import LINES

THEN = r"\s*(?:[,;.]?\s*(?<!\bnow and )\bthen\b|;|→|->|\s/\s(?=\d+\s*°?\s*[CF]\b)|\.\s+(?=[^\W\d_]))\s*"
"""Between two steps in one line."""
MAYBE_THEN = r"\s*,\s*|\s\+\s"
"""The same, where what stands behind it is told of the step already."""
MORE_TO_SAY = re.compile(rf"(?:{MAYBE_THEN})(?:\D|.*[CF]\b)", re.IGNORECASE)
"""Without this, no second step can stand in a line: words, or a temperature, behind a mark."""
WARM = {"temperature", "span", "ambient", "rest", "stage"}
HEATS = {"temperature", "span", "ambient"}
LONG = {"time", "over"}
"""What a step says once: how warm, or what it is for, and how long."""


EXAMPLES: Mapping[str, str] = {"mash": "67 °C, 60 min", "ferment": "19 °C, 10 days"}
REMARKED: Mapping[str, frozenset[str]] = {
    "mash": frozenset({"time", "water", "way"}),
    "ferment": frozenset({"temperature", "until"}),
}
"""What a remark of a section may tell among its own words: "vorlauf, 10 min" holds no rest, "20 °C at most" no step."""


def step_lines(nodes: Sequence[Node], section: str, desk: Desk) -> list[Line]:
    """The lines of a section, one a step, those that can be read; a remark is a note of the step before it."""
    plain = [(line_with_a_colon(it, LINES[section]) or it) if isinstance(it, Table) else it for it in nodes]
    told = [once_told(it, desk.problems) if isinstance(it, Text) else it for it in plain]
    texts = [piece for it in told for piece in (it.split(THEN) if isinstance(it, Text) else [it])]
    unsplit = {it for it in told if isinstance(it, Text)}
    pieces = [
        piece
        for it in texts
        if not isinstance(it, Text) or it.value or it in unsplit
        for piece in (_apart(it, section) if isinstance(it, Text) else [it])
    ]
    lines: list[Line] = []
    remarks: tuple[Text, ...] = ()
    for line in readable(pieces, lambda node: _line(node, section, desk)):
        if _is_remark(line, section, first=not lines):
            whole = Text(line.whole, line.place, exact=False)
            line.warning(f'"{line.whole}" is shown as a note, and not reckoned')
            remarks = (*remarks, whole) if not lines else ()
            lines = [*lines[:-1], replace(lines[-1], notes=(*lines[-1].notes, whole))] if lines else []
            continue
        if not line.says:
            line.error(f'no step is told in "{line.whole}"', EXAMPLES[section])
            continue
        desk.warn_of_notes(line)
        lines.append(replace(line, notes=(*remarks, *line.notes)) if remarks else line)
        remarks = ()
    for remark in remarks:
        desk.problems.error(remark.place, f'no step is told in "{remark.value}"', expected=EXAMPLES[section])
    return lines


def _is_remark(line: Line, section: str, *, first: bool) -> bool:
    """Whether a line holds no step, but only words, behind a step also with a time or a temperature in them."""
    if not line.notes:
        return False
    if not line.says:
        return not {"min", "°C"} <= {base for it in line.notes for base, _ in measures(it.value)}
    counted = any(re.search(r"\d|degree", it.value, re.IGNORECASE) for it in line.notes)
    return line.says <= REMARKED[section] and not first and not counted


def _apart(text: Text, section: str) -> Iterator[Text]:
    """The steps of one line: another begins with the temperature, or the purpose, that is told a second time."""
    if not MORE_TO_SAY.search(text.value):
        yield text
        return
    begun, before, last, known = 0, 0, 0, set[str]()
    marks = (it.span() for it in re.finditer(MAYBE_THEN, text.value))
    outside = [it for it in marks if text.value.count("(", 0, it[0]) <= text.value.count(")", 0, it[0])]
    for end, after in [*outside, (len(text.value),) * 2]:
        keys = _told(text.part(last, end), section)
        if (keys & WARM and _again(keys, known)) or ("sparge" in keys and known):
            yield text.part(begun, before)
            begun, known = last, set()
        known |= keys
        before, last = end, after
    yield text.part(begun)


def _again(keys: set[str], known: set[str]) -> bool:
    """Whether a step that has told some things cannot tell these as well."""
    placed = "ambient" in known and not known & LONG  # "room temperature, 20 to 22 °C"
    return bool(
        (keys & known) or any(keys & of and known & of for of in (({"temperature", "span"} if placed else HEATS), LONG))
    )


def _told(piece: Text, section: str) -> set[str]:
    """What a piece of a line tells."""
    properties = LINES[section]
    bare, _ = without_asides(piece)
    parts = parted([bare], [it.pattern for it in properties], Problems(), piece.value)
    return {
        found[0]
        for part in parts
        if part.word not in ("rest", "no sparge") and (found := property_of(part, properties))
    }


def _line(node: Node, section: str, desk: Desk) -> Line:
    if isinstance(node, Text) and (found := node.split(PARTI_GYLE))[1:] and "no sparge" not in node.value.casefold():
        what = "one recipe is one beer: two from one mash are two recipes"
        desk.problems.error(found[0].place, what, within=node.value, expected="a file for each, with its own batch")
        raise Unreadable
    return desk.line(node, section, warned=False)


def usual_in(line: Line, key: str, role: str | None, usual: Usual | None) -> Quantity | None:
    """A quantity of a step, else what is usual in its role, with a warning; `None` where neither says it."""
    if line.get(key):
        if (found := line.quantity(key)) is None:
            raise Unreadable
        return found
    taken = getattr(usual, key) if usual else ""
    if not taken:
        return None
    line.warning(f"no {key} for the {role}: {taken} is taken, which is usual", f"its own {key}")
    return line.read(Text(taken, line.place, exact=False), line.kinds[key])


def value_of(line: Line, key: str, read: Quantity, label: str, *, unit: str = "", factor: float = 1.0) -> Value:
    """A quantity of a step, the author's own or what is usual."""
    if line.get(key):
        return said(read, label, unit=unit, factor=factor)
    return said(read, label, unit=unit, factor=factor, by=By.DEFAULT, origin="by default, as usual in its role")


def missing(line: Line, found: dict[str, object], example: str) -> None:
    """Refuse a step that lacks something."""
    lacks = [key for key, it in found.items() if it is None]
    if lacks:
        raise line.error(f"no {' and no '.join(lacks)}", f"something like {example}")


def within_span(line: Line, read: Quantity, role: str, usual: Usual) -> None:
    """Warn of a temperature that is odd in its role."""
    if usual.span and line.get("temperature") and not usual.span[0] <= read.number <= usual.span[1]:
        low, high = usual.span
        line.warning(f"{read.text} is odd for the {role}", f"{low:g} to {high:g} °C", at=read)
