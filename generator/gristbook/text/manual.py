"""What an author may write, as tables and as a JSON Schema: made from the same descriptions that the readers use."""

from collections.abc import Iterator, Mapping

from gristbook.model.figures import FIGURES
from gristbook.pantry.lookup import typed
from gristbook.pantry.pantry import SECTIONS, Pantry
from gristbook.reading.fields import Field
from gristbook.reading.lines import Property
from gristbook.reading.units import UNITS
from gristbook.text.batch_vocabulary import (
    BATCH,
    FROZEN,
    LEVEL_PARTS,
    LOG_PARTS,
    MEASURED,
    MOMENT_PARTS,
    PACKAGED_PARTS,
)
from gristbook.text.book import BOOK, CHAPTER, PAGE
from gristbook.text.brewhouse import BREWHOUSE
from gristbook.text.learning import GROUP, LESSON, TERM
from gristbook.text.vocabulary import RECIPE

FILES: Mapping[str, tuple[Field, ...]] = {
    "book.yaml": BOOK,
    "book.yaml: a brewhouse": BREWHOUSE,
    "book.yaml: a chapter": CHAPTER,
    "a recipe": RECIPE,
    "a batch": BATCH,
    "a batch: what was measured": MEASURED,
    "a batch: its recipe": FROZEN,
    "another page": PAGE,
    "theme/learning: a page": LESSON,
    "theme/learning/contents.yaml: a group": GROUP,
    "theme/learning/glossary.yaml: a term": TERM,
}
"""The fields of each kind of file and table."""

BATCH_LINES: Mapping[str, tuple[Property, ...]] = {
    "before the boil, and end of the boil": LEVEL_PARTS,
    "readings": MOMENT_PARTS,
    "packaged": PACKAGED_PARTS,
    "log": LOG_PARTS,
}
"""What may stand in a line of what was measured at a brew."""


TOPICS: Mapping[str, str] = {
    **{"finings and spices" if shelf == "finings" else shelf: shelf for shelf in SECTIONS if shelf != "allergens"},
    "units": "",
    "figures": "",
}
"""What names can be listed of, each with its shelf of the pantry, where it has one."""


def names_of(topic: str, pantry: Pantry) -> Iterator[tuple[str, str]]:
    """Every name that may be written for a thing of a topic, as it can be typed, and what it is called besides."""
    if topic == "units":
        for unit in UNITS.values():
            yield unit.words[0], ", ".join(unit.words[1:])
    elif topic == "figures":
        for figure in FIGURES:
            yield figure.words, ", ".join((*figure.also, *figure.former))
    else:
        for record in getattr(pantry, TOPICS[topic]).records:
            mostly = f"; mostly meant by {', '.join(record.usual_for)}" if record.usual_for else ""
            yield typed(record.name), f"{', '.join(map(typed, record.also))}{mostly}".removeprefix("; ")


def recipe_schema() -> dict[str, object]:
    """A JSON Schema (2020-12) of a recipe's front matter; what a line may hold is checked by `gristbook check`."""
    return _schema("A recipe of Gristbook", RECIPE)


def batch_schema() -> dict[str, object]:
    """A JSON Schema (2020-12) of a batch's front matter, what was measured and the kept recipe within it."""
    return _schema("A batch of Gristbook", BATCH, measured=_object(MEASURED), recipe=_object(FROZEN))


def book_schema() -> dict[str, object]:
    """A JSON Schema (2020-12) of `book.yaml`, its brewhouses and chapters within it."""
    brewhouses, chapters = {"additionalProperties": _object(BREWHOUSE)}, {"items": _object(CHAPTER)}
    return _schema("A book of Gristbook", BOOK, brewhouses=brewhouses, chapters=chapters)


def _schema(title: str, fields: tuple[Field, ...], **within: Mapping[str, object]) -> dict[str, object]:
    """The schema of a file; ``within`` says more of its fields."""
    said = {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": title}
    return said | _object(fields, within)


def _object(fields: tuple[Field, ...], within: Mapping[str, Mapping[str, object]] = {}) -> dict[str, object]:
    return {
        "type": "object",
        "properties": {field.name: {**_property(field), **within.get(field.name, {})} for field in fields},
        "required": [field.name for field in fields if field.required],
        "additionalProperties": False,
    }


def _property(field: Field) -> dict[str, object]:
    described: dict[str, object] = {"description": field.sentence}
    if field.kind.shape == "table":
        return described | {"type": "object"}
    if field.kind.shape == "lines":
        return described | {"type": ["array", "string", "object"]}
    if field.kind.choices:
        described["enum"] = list(field.kind.choices)
    else:
        described["type"] = ["string", "number"]
        described["examples"] = [field.kind.words.partition(", as ")[2] or field.kind.words]
    return described | ({"default": field.default} if field.default else {})
