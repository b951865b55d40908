"""What stands at the top of a recipe and is no field of one: an ingredient, a setting of a brewhouse, a note."""

import re

from gristbook.problems import nearest
from gristbook.reading.fields import LINES, field_called
from gristbook.reading.quantity import NUMBER
from gristbook.reading.tree import Listing, Node, Table, Text
from gristbook.text.brewhouse import BREWHOUSE
from gristbook.text.values import SHELVES, Desk, name_in
from gristbook.text.vocabulary import RECIPE

ASIDES = frozenset(
    {
        *("author", "brewer", "brewed by", "recipe by", "source", "credit", "credits", "type", "recipe type", "method"),
        *("note", "notes", "comment", "comments", "tags", "keywords", "category", "difficulty", "version", "status"),
    }
)
"""What people say of a recipe that no page has a place for."""

STEEPED = frozenset({"steep", "steeped", "steeping", "steeping grains", "steeped grains", "steep grains", "to steep"})
"""What a list of malts is called that are steeped; a line of it that is no malt says how."""
_HOW = re.compile(r"(?:steep(?:ed)?\s+)?(?:for\s+)?(?:(?:about\s+)?\d.*\bat\b.*\d.*)", re.IGNORECASE)


def with_fields_alone(front: Table, desk: Desk) -> Table:
    """The fields of a recipe: an ingredient among them is made a line of its section, what counts for nothing is left.

    Each of these is warned of.
    """
    entries: dict[str, tuple[Text, Node]] = {}
    lines: list[tuple[Text, str, Node]] = []
    for key, node in front.entries:
        if key.word in STEEPED:
            lines += [(key, "malts", it) for it in _steeped(node)]
            continue
        known = field_called(RECIPE, key.value)
        section = "" if known and not _is_amount(node) else _section_of(key, node, desk)
        if known is None and field_called(BREWHOUSE, key.value):
            where = "it at a brewhouse in book.yaml"
            desk.problems.warning(key.place, f'"{key.value}" is no field of a recipe: it is not read', expected=where)
        elif known is None and not _is_slip(key) and (named := _all_named(node, desk)):
            told = f"- {named[0][1].value}" if len({it for it, _ in named}) == 1 else ""
            sections = " and ".join(dict.fromkeys(it for it, _ in named))
            desk.problems.warning(key.place, f'"{key.value}" is read as lines of {sections}', expected=told)
            lines += [(key, to, it) for to, it in named]
        elif known is None and not section and (key.word in ASIDES or not _is_slip(key)):
            what = f'"{key.value}" is no field of a recipe: nothing of it is reckoned'
            desk.problems.warning(key.place, what, expected="in the words below the fields")
        elif section and isinstance(node, Text):
            told = node.value if desk.names_of(section)(name_in(node)) else f"{key.value}, {node.value}"
            desk.problems.warning(key.place, f'"{key.value}" is read as a line of {section}', expected=f"- {told}")
            lines.append((key, section, Text(told, key.place, exact=False)))
        else:
            first, before = entries.setdefault(known.name if known else key.value, (key, node))
            if known and first is not key and known.kind is LINES and first.word != key.word:
                entries[known.name] = (first, Listing((*_items(before), *_items(node)), before.place))
            elif first is not key:
                entries[key.value] = (key, node)  # given twice, which the reader of fields tells
    for key, section, line in lines:
        name, before = entries.get(section, (Text(section, key.place, exact=False), Listing((), key.place)))
        entries[section] = (name, Listing((*_items(before), line), before.place))
    return Table(tuple(entries.values()), front.place)


def _items(node: Node) -> tuple[Node, ...]:
    return node.items if isinstance(node, Listing) else (node,)


def _steeped(node: Node) -> list[Node]:
    """Malts that are steeped, each with what one line of them says of how."""
    lines = [it for it in _items(node) if isinstance(it, Text)]
    how = next((it.value for it in lines if _HOW.fullmatch(it.value)), "")
    told = f", {how}" if "steep" in how else f", steep {how}".rstrip()
    malts = (it if "steep" in it.word else Text(f"{it.value}{told}", it.place) for it in lines if it.value != how)
    return [*malts, *(it for it in _items(node) if it not in lines)]


def _is_slip(key: Text) -> bool:
    """Whether a field that no recipe has is all but one that it has."""
    return bool(nearest(key.value, (word for it in RECIPE for word in (it.name, *it.also.split(", ")))))


def _all_named(node: Node, desk: Desk) -> list[tuple[str, Text]]:
    """The lines of a list with the section where each belongs, if all begin with an amount and a name of the pantry."""
    lines = [it for it in _items(node) if isinstance(it, Text)] if isinstance(node, Listing) else []
    named = [(_section(name_in(it), desk) if re.match(NUMBER, it.value) else "", it) for it in lines]
    return named if named and all(section for section, _ in named) else []


def _section_of(key: Text, node: Node, desk: Desk) -> str:
    """The section where a name with an amount behind it belongs; "" where it is none of the pantry's."""
    if not isinstance(node, Text) or not re.match(NUMBER, node.value):
        return ""
    return _section(key.value, desk)


def _section(name: str, desk: Desk) -> str:
    """The section where a thing of the pantry belongs; "" where the name is none."""
    matches = [(section, getattr(desk.pantry, shelf).look_up(name)) for shelf, section in SHELVES]
    exact = [section for section, match in matches if match.exact]
    return next(iter([*exact, *(section for section, match in matches if match.found)]), "")


def _is_amount(node: Node) -> bool:
    """Whether it is an amount of what its key names, as in `honey: 300 g`, which names a section as well."""
    return isinstance(node, Text) and re.fullmatch(rf"{NUMBER}\s*(?:g|kg|oz|lb|lbs)", node.value) is not None
