"""From the pantry's shelves to the model: everything that a recipe may hold, its figures knowing who says so."""

from collections.abc import Mapping
from typing import get_args

from gristbook.model.larder import Ingredient, ShelfName
from gristbook.pantry.pantry import SECTIONS, Pantry
from gristbook.pantry.reading import attribute
from gristbook.pantry.records import Hop, Record, Spread
from gristbook.pantry.section import Section
from gristbook.sheet.value import Value
from gristbook.text.allergens import brings_of
from gristbook.text.hops import lost_in_six_months
from gristbook.text.values import from_pantry

SPELLED: Mapping[str, str] = {
    "alpha": "alpha acids",
    "alpha in trials": "alpha acids in trial plots",
    "fermentable": "share that ferments",
    "keeps": "share of the alpha acids kept for six months",
    "temperature": "temperatures that suit",
}
"""Fields that are called otherwise in a working."""

LOST = "lost in six months"
"""The figure of a hop that its store is reckoned with, also where nobody has measured how its variety keeps."""


def read_larder(pantry: Pantry) -> tuple[Ingredient, ...]:
    """Every record of the shelves that recipes are made from, in the pantry's order."""
    return tuple(
        _ingredient(name, SECTIONS[name], record, pantry)
        for name in get_args(ShelfName)
        for record in getattr(pantry, name).records
    )


def _ingredient(shelf: ShelfName, section: Section[Record], record: Record, pantry: Pantry) -> Ingredient:
    figures: dict[str, Value] = {}
    spans: dict[str, tuple[float, float]] = {}
    words: dict[str, str] = {}
    for field in section.own:
        stated = getattr(record, attribute(field))
        if isinstance(stated, Spread):
            figures[field.name] = from_pantry(stated, f"{SPELLED.get(field.name, field.name)} of {record.name}")
            if stated.low < stated.high:
                spans[field.name] = stated.low, stated.high
        elif isinstance(stated, bool):
            words[field.name] = "yes" if stated else "no"
        elif isinstance(stated, str) and stated:
            words[field.name] = stated
    brings = brings_of(record, pantry)
    if isinstance(record, Hop):
        figures[LOST] = lost_in_six_months(record)
    said = record.name, record.also, record.about, record.source
    return Ingredient(shelf, *said, figures, spans, words, brings, dict(getattr(record, "stand_ins", ())))
