"""What an author may write, as tables: made from the same descriptions that the readers use."""

from collections.abc import Iterator, Mapping

from gristbook.model.figures import FIGURES
from gristbook.pantry.lookup import typed
from gristbook.pantry.pantry import SECTIONS, Pantry
from gristbook.reading.fields import Field
from gristbook.reading.line import Property
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
