"""Two versions of a text of fields as one list of lines, of which any may be taken as it was or as it is now."""

import json
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher

from gristbook.model.figures import figure_called
from gristbook.reading.fields import field_called
from gristbook.reading.tree import Listing, Node, Table, Text
from gristbook.text.vocabulary import RECIPE

ALIKE = 0.6
"""Two lines as much alike as this are one line that changed; others are one that went and one that came."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a field in both versions, as JSON; `None` where a version has it not.

    ``where`` are the names that lead to it; with none it is a whole file, in Latin-1, which keeps every byte.
    """

    file: str
    where: tuple[str, ...]
    then: str | None
    now: str | None


Change = tuple[int, ...]
"""Which lines change together, by their places in the list."""


def merged(file: str, then: Table, now: Table) -> Iterator[Line]:
    """All lines of two versions of a file's fields, those that are the same, too."""
    was, here = (dict(_by_place(_plain(tree))) for tree in (then, now))
    for where in dict.fromkeys([*here, *was]):
        for before, after in _side_by_side(was.get(where, []), here.get(where, [])):
            yield Line(file, where, before, after)


def changes(lines: Sequence[Line]) -> list[Change]:
    """The least that can change: a line, or both ends of one that only went to another place among its kind."""
    found: list[Change] = []
    came = {(it.file, it.where, it.now): at for at, it in enumerate(lines) if it.then is None and it.where}
    gone = {(it.file, it.where, it.then): at for at, it in enumerate(lines) if it.now is None and it.where}
    ends = {key: tuple(sorted((came[key], gone[key]))) for key in came.keys() & gone.keys()}
    for at, line in enumerate(lines):
        if line.then != line.now:
            key = (line.file, line.where, line.now if line.then is None else line.then)
            moved = ends.get(key, ())
            if at not in moved:
                found.append((at,))
            elif at == moved[0]:
                found.append(moved)
    return found


def written(lines: Sequence[Line], chosen: Collection[int]) -> str:
    """The fields as YAML, with the ``chosen`` lines as they are now and all others as they were."""
    whole: dict[str, object] = {}
    for at, line in enumerate(lines):
        item = line.now if at in chosen else line.then
        if item is None:
            continue
        here = whole
        for name in line.where[:-1]:
            within = here.get(name)
            here[name] = here = within if isinstance(within, dict) else {}
        before = here.get(line.where[-1])
        here[line.where[-1]] = [*(before if isinstance(before, list) else ()), json.loads(item)]
    return json.dumps(_single(whole), ensure_ascii=False)


def recipe_text(lines: Sequence[Line], chosen: Collection[int]) -> str:
    """A recipe without prose, and without what its author expects of it, which another line's change may not keep."""
    kept = [replace(it, then=None, now=None) if _expects(it) else it for it in lines]
    return f"---\n{written(kept, chosen)}\n---\n"


def _expects(line: Line) -> bool:
    field = field_called(RECIPE, line.where[0])
    return field.name == "expect" if field else figure_called(line.where[0]) is not None


def _single(node: object) -> object:
    """Lists of one line as that line, as a field that is no list has to be."""
    if isinstance(node, dict):
        return {name: _single(child) for name, child in node.items()}
    return node[0] if isinstance(node, list) and len(node) == 1 else node


def _by_place(node: object, where: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], list[str]]]:
    """The lines of each field, by the names that lead to it."""
    if isinstance(node, dict):
        for name, child in node.items():
            yield from _by_place(child, (*where, name))
    else:
        yield where, [json.dumps(item, ensure_ascii=False) for item in (node if isinstance(node, list) else [node])]


def _plain(node: Node) -> object:
    if isinstance(node, Text):
        return node.value
    if isinstance(node, Listing):
        return [_plain(item) for item in node.items]
    return {name.value: _plain(child) for name, child in node.entries}


def _side_by_side(then: list[str], now: list[str]) -> Iterator[tuple[str | None, str | None]]:
    for kind, a, b, c, d in SequenceMatcher(None, then, now, autojunk=False).get_opcodes():
        yield from zip(then[a:b], now[c:d], strict=True) if kind == "equal" else _paired(then[a:b], now[c:d])


def _paired(gone: list[str], come: list[str]) -> Iterator[tuple[str | None, str | None]]:
    """Lines that changed side by side, in both orders; what has no partner stands alone."""
    only = len(gone) == len(come) == 1
    for line in gone:
        likeness = [SequenceMatcher(None, line, other).ratio() for other in come]
        if likeness and (only or max(likeness) >= ALIKE):
            best = likeness.index(max(likeness))
            yield from ((None, other) for other in come[:best])
            yield line, come[best]
            come = come[best + 1 :]
        else:
            yield line, None
    yield from ((None, other) for other in come)
