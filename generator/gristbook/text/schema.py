"""What may be written in a file of a book as a JSON Schema, for an editor: made from what the readers read by.

A schema is easier than the reader: whatever is read fits it, and what does not fit is not read. What it cannot say (how
the parts of a line go together, what a brew can be) `gristbook check` says.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from gristbook.model.figures import FIGURES
from gristbook.pantry.lookup import typed
from gristbook.pantry.pantry import Pantry
from gristbook.reading.apart import AMERICAN, AMOUNT, NAME
from gristbook.reading.fields import ADDRESS, DATE, Field, Kind
from gristbook.reading.fields import LINES as LINE
from gristbook.reading.heads import TIN
from gristbook.reading.line import Property
from gristbook.reading.quantity import SIZED
from gristbook.reading.units import QUOTIENTS, UNITS
from gristbook.text.batch_vocabulary import (
    BATCH,
    FROZEN,
    LEVEL_PARTS,
    LOG_PARTS,
    MEASURED,
    MOMENT_PARTS,
    PACKAGED_PARTS,
)
from gristbook.text.book import BOOK, CHAPTER
from gristbook.text.brewhouse import BREWHOUSE
from gristbook.text.front import STEEPED
from gristbook.text.values import SHELVES
from gristbook.text.vocabulary import LINES, RECIPE, UNNAMED

Schema: TypeAlias = dict[str, Any]

SCALAR = ["string", "number", "boolean", "null"]
"""What a reader of YAML makes of words: `title: 1900` is a number to it, and an empty field nothing."""

WEIGHED: Mapping[str, str] = {"malts": "1 kg", "sugars": "200 g", "extracts": "1 kg", "hops": "30 g"}
"""Sections in whose lines a number that begins them has a unit, each with an amount to begin with."""

FIGURE_WORDS = tuple(word for it in FIGURES for word in (it.words, *it.also, *it.former))
"""All that figures are called."""

BATCH_LINES: Mapping[str, tuple[Property, ...]] = {
    "before the boil": LEVEL_PARTS,
    "end of the boil": LEVEL_PARTS,
    "readings": MOMENT_PARTS,
    "log": LOG_PARTS,
    "packaged": PACKAGED_PARTS,
}
"""What may stand in a line of what was measured at a brew."""


@dataclass(frozen=True, slots=True)
class Known:
    """The names that a book's files may use: its pantry's, those of advice, and of its brewhouses; of none, any do."""

    pantry: Pantry
    advice: tuple[str, ...] = ()
    brewhouses: tuple[str, ...] = ()


WORTH_A_REFERENCE = 300
"""A schema of so many letters is written once, wherever it stands."""


def recipe_schema(known: Known) -> Schema:
    """A recipe's front matter."""
    told = _object("a recipe", RECIPE, _within(known), FIGURE_WORDS)
    told["patternProperties"][_spelled(sorted(STEEPED))] = _kind(LINE)
    return _file("A recipe of Gristbook", told)


def batch_schema(known: Known) -> Schema:
    """A batch's front matter, with what was measured and the recipe that it keeps."""
    lines = {name: _lines(parts, named=False) for name, parts in BATCH_LINES.items()}
    measured = _object("what was measured", MEASURED, lines)
    kept = _object("the kept recipe", FROZEN, _within(known) | {"plan": _table(_figures())})
    return _file("A batch of Gristbook", _object("a batch", BATCH, {"measured": measured, "recipe": kept}))


def book_schema(known: Known) -> Schema:
    """What stands in `book.yaml`, its brewhouses and chapters with it."""
    waters = _named([it.name for it in known.pantry.waters.records])
    chapter = _object("a chapter", CHAPTER, {"recipes": {"type": ["array", *SCALAR], "items": {"type": SCALAR}}})
    within = {
        "brewhouses": _table(more=_object("a brewhouse", BREWHOUSE, {"water": waters})),
        "chapters": {"type": ["array", "object", "null"], "items": chapter},
        "brewhouse": _one_of(known.brewhouses),
    }
    return _file("A book of Gristbook", _object("a book", BOOK, within))


SCHEMAS = {"recipe": recipe_schema, "batch": batch_schema, "book": book_schema}
"""What makes the schema of each kind of file."""


def _file(title: str, told: Schema) -> Schema:
    """A schema of draft 7, which every editor's server knows."""
    counted, shared = Counter(_long(told)), dict[str, Schema]()
    names = {it: f"{number}" for number, it in enumerate(it for it, times in counted.items() if times > 1)}
    whole = _by_reference(told, names, shared)
    return {"$schema": "http://json-schema.org/draft-07/schema#", "title": title, **whole, "definitions": shared}


def _is_one(told: object) -> bool:
    """Whether it is a schema, and no table of them."""
    return isinstance(told, dict) and any(isinstance(told.get(key), list | str) for key in ("type", "anyOf", "enum"))


def _long(told: object) -> Iterator[str]:
    """Every schema within one that is worth a reference, written out."""
    for part in told.values() if isinstance(told, dict) else told if isinstance(told, list) else ():
        if _is_one(part) and len(written := json.dumps(part)) > WORTH_A_REFERENCE:
            yield written
        yield from _long(part)


def _by_reference(told: Any, names: Mapping[str, str], shared: dict[str, Schema]) -> Any:
    """The same with a reference for what stands there several times."""
    if isinstance(told, list):
        return [_by_reference(it, names, shared) for it in told]
    if not isinstance(told, dict):
        return told
    made = {key: _by_reference(it, names, shared) for key, it in told.items()}
    if _is_one(told) and (name := names.get(json.dumps(told))):
        shared[name] = made
        return {"$ref": f"#/definitions/{name}"}
    return made


def _within(known: Known) -> dict[str, Schema]:
    """What a recipe's fields hold, where that is more than their kinds say."""
    lines = {
        section: _lines(
            parts,
            named=section not in UNNAMED,
            weighed=WEIGHED.get(section, ""),
            names=[typed(it.name) for shelf, of in SHELVES if of == section for it in _records(known.pantry, shelf)],
        )
        for section, parts in LINES.items()
    }
    return {
        **lines,
        "style": _named([it.name for it in known.pantry.styles.records]),
        "brewhouse": _one_of(known.brewhouses),
        "expect": _table(_figures(), also=_spelled(FIGURE_WORDS)),
        "meant": _table({it: {"type": SCALAR} for it in known.advice}, also=_advised(known.advice)),
    }


def _records(pantry: Pantry, shelf: str) -> Iterable[Any]:
    return getattr(pantry, shelf).records  # type: ignore[no-any-return]


def _object(what: str, fields: Sequence[Field], within: Mapping[str, Schema], others: Iterable[str] = ()) -> Schema:
    """A table: its fields by their names, which an editor offers, and by whatever else the reader takes for them."""
    words = {field.name: _words(field) for field in fields}
    free = set(others) - {word for them in words.values() for word in them}
    by_others = {
        _spelled(them, but=name): _property(field, within)
        for field in fields
        for name, them in [(field.name, words[field.name])]
    }
    needed = [
        {
            "not": {"propertyNames": {"not": {"pattern": _spelled(words[field.name])}}},
            "errorMessage": f"{what} needs {field.name}",
        }
        for field in fields
        if field.required
    ]
    return {
        "type": "object",
        "properties": {field.name: _property(field, within) for field in fields},
        "patternProperties": by_others | ({_spelled(sorted(free)): {"type": SCALAR}} if free else {}),
        "additionalProperties": False,
        **({"allOf": needed} if needed else {}),
    }


def _table(known: Schema | None = None, more: Schema | None = None, also: str = "") -> Schema:
    """A table of any keys, of which some are ``known``; where a pattern is told of others, of these alone."""
    keys = {"properties": known} if known else {}
    others: Schema = {"patternProperties": {also: {"type": SCALAR}}, "additionalProperties": False} if also else {}
    return {"type": ["object", "string", "null"], **keys, "additionalProperties": more or {"type": SCALAR}, **others}


def _words(field: Field) -> list[str]:
    return [field.name, *(field.also.split(", ") if field.also else ())]


def _property(field: Field, within: Mapping[str, Schema]) -> Schema:
    said = {"description": field.sentence} | ({"default": field.default} if field.default else {})
    return said | (within.get(field.name) or _kind(field.kind, field.unit))


def _kind(kind: Kind, unit: str = "") -> Schema:
    """What may stand in a field."""
    example = kind.words.partition(", as ")[2]
    said: Schema = {"examples": [example], "errorMessage": f"expected {kind.words}"} if example else {}
    if kind.shape == "table":
        return {"type": ["object", "string", "null"]}
    if kind.shape == "lines":
        return {"type": ["array", "object", *SCALAR], "items": {"type": ["object", *SCALAR]}}
    if kind.choices:
        return {"enum": [*kind.choices, None]}
    if kind is DATE:
        return said | {"type": ["string", "null"]}
    if kind is ADDRESS:
        return said | {"type": ["string", "null"], "pattern": "^https?://"}
    if not kind.bases:
        return said | {"type": SCALAR}
    if "" in kind.bases:
        return said | {"type": ["string", "number", "null"], "minimum": kind.least, "maximum": min(kind.most, 1e9)}
    numbers = ["number"] if unit else []
    return said | {"type": ["string", *numbers, "null"], "pattern": _with_unit(kind.bases, bare=bool(unit))}


def _lines(parts: Sequence[Property], *, named: bool, weighed: str = "", names: Sequence[str] = ()) -> Schema:
    """The lines of a section: each as one says it, or as a table of its parts."""
    line: Schema = {"type": ["string", "null"] if named else SCALAR, "examples": [part.example for part in parts]}
    if weighed:
        line |= {"pattern": _BEGINS_WITH_AN_AMOUNT, "errorMessage": f"expected an amount with its unit, as {weighed}"}
    if names:
        line["examples"] = [f"{weighed} {name}".lstrip() for name in names]
    keys: Schema = {AMOUNT: {"type": SCALAR}, NAME: {"type": SCALAR, "examples": list(names)}} if named else {}
    keys |= {part.key: {"description": part.sentence, "examples": [part.example], "type": SCALAR} for part in parts}
    keys |= {word: keys[ours] for word, ours in AMERICAN.items() if ours in keys}
    table = {
        "type": "object",
        "properties": keys,
        "patternProperties": {"[\\d, ]": {}},  # a line with a colon in it, which YAML takes for a table
        "additionalProperties": False,
    }
    return {"anyOf": [{"type": "array", "items": {"anyOf": [line, table]}}, line, table]}


def _advised(names: Sequence[str]) -> str:
    """A pattern for what else advice may be called: by what it is of alone, or with the former name of a figure."""
    return f"^(?:{'|'.join(sorted({_escaped(it.partition(': ')[0]) for it in names}))})(?:: .+)?$" if names else ""


def _figures() -> Schema:
    return {it.words: {"type": SCALAR, "examples": [it.unit]} for it in FIGURES}


def _named(names: Sequence[str]) -> Schema:
    """Names that are offered, beside which others may stand."""
    return {"anyOf": [{"enum": list(names)}, {"type": SCALAR}]}


def _one_of(names: Sequence[str]) -> Schema:
    return {"enum": [*names, None]} if names else {}


def _spelled(words: Iterable[str], but: str = "") -> str:
    """A pattern for words as the reader of fields takes them: in capitals or small, with blanks, hyphens or underlines.

    One form of them is told elsewhere, and left out.
    """
    found = dict.fromkeys("[\\s_-]+".join(map(_caseless, re.split(r"[\s_-]+", word))) for word in words)
    return f"^{f'(?!{_escaped(but)}$)' if but else ''}(?:{'|'.join(found)})$"


def _caseless(word: str) -> str:
    return "".join(f"[{it.upper()}{it.lower()}]" if it.isascii() and it.isalpha() else _escaped(it) for it in word)


def _escaped(word: str) -> str:
    """A word as a pattern, by ECMA-262, which knows fewer escapes than Python."""
    return re.sub(r"[\\^$.*+?()\[\]{}|]", r"\\\g<0>", word)


def _with_unit(bases: Sequence[str], *, bare: bool) -> str:
    """A pattern for words of which some number has a unit of these bases; words without any number may mean something.

    With ``bare`` a number alone will do.
    """
    meant = [_units(base) for base in (*bases, *(["degrees"] if "°C" in bases else []))]
    meant += [
        rf"(?:{_units(over)})\s*(?:/|[Pp][Ee][Rr])\s*(?:{_units(under)})"
        for (over, under), (base, *_) in QUOTIENTS.items()
        if base in bases
    ]
    alone = rf"|^{_DIGIT}+$" if bare else ""
    units = "|".join(filter(None, meant))
    return rf"(?:{_DIGIT}|[a-z]\s+)°?\s*(?:{units})(?![A-Za-z])|^[^\d½¼¾⅓⅔⅛]*$|^from batches{alone}"


_DIGIT = r"[\d\s.½¼¾⅓⅔⅛]"


def _units(base: str) -> str:
    """Every word of the units of a base, the longest first."""
    words = {word for unit in UNITS.values() if unit.base == base for word in unit.words}
    return "|".join(_caseless(word).replace(" ", r"\s+") for word in sorted(words, key=lambda it: (-len(it), it)))


_ANY_UNIT = "|".join(map(_units, sorted({unit.base for unit in UNITS.values()})))
_BEGINS_WITH_AN_AMOUNT = rf"^(?!\s*\d+(?:\.\d+)?\s+(?!{SIZED}(?:{_ANY_UNIT}|{TIN}|to|and|x|by)(?![A-Za-z]))[A-Za-z]+)"
"""No number begins the line that a word follows which is no unit."""
