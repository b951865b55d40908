"""What stands at the top of a recipe and is no field of one: an ingredient, a setting of a brewhouse, a note."""

import re

from gristbook.reading.fields import field_called
from gristbook.reading.quantity import NUMBER
from gristbook.reading.tree import Listing, Node, Table, Text
from gristbook.text.brewhouse import BREWHOUSE
from gristbook.text.values import SHELVES, Desk
from gristbook.text.vocabulary import RECIPE

ASIDES = frozenset(
    {
        *("author", "brewer", "brewed by", "recipe by", "source", "credit", "credits", "type", "recipe type", "method"),
        *("note", "notes", "comment", "comments", "tags", "keywords", "category", "difficulty", "version", "status"),
    }
)
"""What people say of a recipe that no page has a place for."""


def with_fields_alone(front: Table, desk: Desk) -> Table:
    """The fields of a recipe: an ingredient among them is made a line of its section, what counts for nothing is left.

    Each of these is warned of.
    """
    entries: dict[str, tuple[Text, Node]] = {}
    lines: list[tuple[Text, str, Text]] = []
    for key, node in front.entries:
        known = field_called(RECIPE, key.value)
        section = "" if known and not _is_amount(node) else _section_of(key, node, desk)
        if known is None and (key.word in ASIDES or field_called(BREWHOUSE, key.value)):
            where = "in the words below the fields" if key.word in ASIDES else "it at a brewhouse in book.yaml"
            desk.problems.warning(key.place, f'"{key.value}" is no field of a recipe: it is not read', expected=where)
        elif section and isinstance(node, Text):
            told = f"{key.value}, {node.value}"
            desk.problems.warning(key.place, f'"{key.value}" is read as a line of {section}', expected=f"- {told}")
            lines.append((key, section, Text(told, key.place, exact=False)))
        else:
            entries.setdefault(known.name if known else key.value, (key, node))
            if known and entries[known.name][0] is not key:
                entries[key.value] = (key, node)  # given twice, which the reader of fields tells
    for key, section, line in lines:
        name, before = entries.get(section, (Text(section, key.place, exact=False), Listing((), key.place)))
        items = before.items if isinstance(before, Listing) else (before,)
        entries[section] = (name, Listing((*items, line), before.place))
    return Table(tuple(entries.values()), front.place)


def _section_of(key: Text, node: Node, desk: Desk) -> str:
    """The section where a name with an amount behind it belongs; "" where it is none of the pantry's."""
    if not isinstance(node, Text) or not re.match(NUMBER, node.value):
        return ""
    matches = [(section, getattr(desk.pantry, shelf).look_up(key.value)) for shelf, section in SHELVES]
    exact = [section for section, match in matches if match.exact]
    return next(iter([*exact, *(section for section, match in matches if match.found)]), "")


def _is_amount(node: Node) -> bool:
    """Whether it is an amount of what its key names, as in `honey: 300 g`, which names a section as well."""
    return isinstance(node, Text) and re.fullmatch(rf"{NUMBER}\s*(?:g|kg|oz|lb|lbs)", node.value) is not None
