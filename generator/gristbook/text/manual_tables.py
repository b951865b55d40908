"""The reference parts of the manual, as Markdown: made from the same descriptions that the readers use."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from itertools import groupby
from pathlib import Path

from gristbook.model.figures import FIGURES
from gristbook.pantry.doubts import Usual, usual_doubts
from gristbook.pantry.pantry import SECTIONS, Pantry
from gristbook.pantry.records import ABOUT, NAMES
from gristbook.problems import Problems
from gristbook.reading.fields import LINES as LINES_OF_IT
from gristbook.reading.fields import WORDS, Field, Kind
from gristbook.reading.line import Property
from gristbook.reading.units import UNITS, Unit
from gristbook.sheet.ids import id_of
from gristbook.text.manual import BATCH_LINES, FILES, names_of
from gristbook.text.parts.steps import RESTS, STAGES
from gristbook.text.parts.steps import Usual as Role
from gristbook.text.vocabulary import LINES

HOME = Path(__file__).parents[1] / "manual"
"""The manual as it is written: a book, whose pages ask for lists."""

ASKED = re.compile(r"^!\[[^\]]*\]\((?P<what>\w+):(?P<of>[\w-]+)\)$", re.MULTILINE)
"""Where a page of the manual asks for a list: a picture by itself in its line, as `![Its fields](fields:recipe)`."""

MEASURES: Mapping[str, str] = {
    "kg": "Weights",
    "L": "Volumes",
    "min": "Times",
    "°C": "Temperatures",
    "bar": "Pressures",
}
"""What the larger bases of units measure; all others stand together."""

Lists = Mapping[str, Callable[[str], Iterator[str]]]


def manual(lists: Lists) -> dict[str, str]:
    """The manual as a book: its texts by their paths there, each with every list that it asks for."""
    return {
        path.relative_to(HOME).as_posix(): ASKED.sub(
            lambda asked: "\n".join(lists[asked["what"]](asked["of"])), path.read_text("utf-8")
        )
        for path in sorted(HOME.rglob("*"))
        if path.is_file()
    }


def named(title: str) -> str:
    """What a page of the manual calls a kind of file or of line.

    >>> named("book.yaml: a brewhouse"), named("theme/learning/contents.yaml: a group"), named("a batch")
    ('brewhouse', 'group', 'batch')
    """
    return title.rpartition(": ")[2].removeprefix("a ").partition(",")[0].removesuffix(".yaml").replace(" ", "-")


def _fields(of: str) -> Iterator[str]:
    """The fields of a kind of file."""
    yield from map(_field, _fields_of(of))


def _headed(of: str) -> Iterator[str]:
    """The fields of a kind of file, each under a heading of its own, by which it is found."""
    for field in _fields_of(of):
        yield f"### {field.name}\n\n{_said(field)}\n"


def _fields_of(of: str) -> tuple[Field, ...]:
    return {named(title): fields for title, fields in FILES.items()}[of]


def _pantry(of: str) -> Iterator[str]:
    """The fields of a shelf of the pantry; ``every`` has those that stand on every shelf."""
    yield from map(_field, (*NAMES, *ABOUT) if of == "every" else SECTIONS[of].own)


def _field(field: Field) -> str:
    return f"- **{field.name}**: {_said(field)}"


def _said(field: Field) -> str:
    usual = f" If nothing is said: {field.default}." if field.default else " It is needed." if field.required else ""
    also = f" Also called {field.also}." if field.also else ""
    kind = "" if field.kind in (LINES_OF_IT, WORDS) else f" {_kind(field.kind)}."
    return f"{field.sentence}{kind}{usual}{also}"


def _kind(kind: Kind) -> str:
    *others, last = kind.choices or (kind.words,)
    words = f"{', '.join(others)} or {last}" if others else last
    return words[:1].upper() + words[1:]


def _parts(of: str) -> Iterator[str]:
    """The parts that a kind of line may have, each once, as it may be written."""
    lines: Mapping[str, tuple[Property, ...]] = {
        named(title): parts for title, parts in {**LINES, **BATCH_LINES}.items()
    }
    for part in dict.fromkeys(lines[of]):
        yield f"- `{part.example}`: {part.sentence}"


def _names(of: str) -> Iterator[str]:
    """Every name of a shelf of our pantry by the alphabet, with the others that are read for it: a line a letter."""

    def place(named: tuple[str, str]) -> str:
        return re.sub(r"\d+", lambda number: number[0].zfill(4), id_of(named[0]))

    found = sorted(names_of(of.replace("-", " "), Pantry.load(None, Problems())), key=place)
    for _, its in groupby(found, key=lambda it: place(it)[:1]):
        yield "; ".join(f"**{name}**{f' ({others})' if others else ''}" for name, others in its) + ".\n"


def _units(of: str) -> Iterator[str]:
    """Every unit, by what it measures, with all that may be written for it; ``all`` of them."""

    def measure(unit: Unit) -> str:
        return MEASURES.get(unit.base, "Whatever else is measured")

    for title, units in groupby(sorted(UNITS.values(), key=lambda it: [*MEASURES, it.base].index(it.base)), measure):
        yield f"\n**{title}**\n"
        for unit in units:
            yield f"- {', '.join(f'`{word}`' for word in unit.words)}"


def _figures(of: str) -> Iterator[str]:
    """Every figure by the part of the brew that it belongs to, with its other names and its id; ``all`` of them."""
    for part, figures in groupby(FIGURES, lambda figure: figure.part):
        yield f"\n**{part}**\n"
        for it in figures:
            also = f", or {', '.join(it.also)}" if it.also else ""
            yield f"- {it.words}{also} (`{it.id}`)"


def _roles(of: str) -> Iterator[str]:
    """What a rest of the mash or a stage of the ferment is taken to be where its line does not say it."""
    roles: Mapping[str, Role] = {"mash": RESTS, "ferment": STAGES}[of]  # type: ignore[assignment]
    for role, usual in roles.items():
        held = " for ".join(it for it in (usual.temperature, usual.time) if it)
        yield f"- {role}{f': {held}' if held else ''}"


def _doubts(of: str) -> Iterator[str]:
    """How sure each kind of number is that says nothing of it; ``all`` of them."""
    for kind, usual in usual_doubts().items():
        yield f"- {kind}: {_between(kind, usual)} ({usual.words})"


def _between(kind: str, usual: Usual) -> str:
    size, unit = (100, " points" if usual.in_unit else " %")
    if usual.in_unit and "temperature" in kind:
        size, unit = 1, " °C"
    elif usual.in_unit and "pH" in kind:
        size, unit = 1, ""
    low, high = size * usual.low, size * usual.high
    return (f"± {high:.2g}{unit}" if low == -high else f"{low:.2g} to +{high:.2g}{unit}").replace("-", "−")


LISTS: Lists = {
    "fields": _fields,
    "headed": _headed,
    "pantry": _pantry,
    "parts": _parts,
    "names": _names,
    "units": _units,
    "figures": _figures,
    "roles": _roles,
    "doubts": _doubts,
}
"""What a page of the manual may ask for, by the word before the colon."""
