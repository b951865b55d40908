"""What a recipe says of itself: figures that it should come to, and the advice that it means to go against."""

import re
from collections.abc import Iterable, Iterator

from gristbook.model.figures import figure_called
from gristbook.model.recipe import Expectation, Intention
from gristbook.problems import Place, Problems
from gristbook.reading.fields import field_called
from gristbook.reading.patterns import fits
from gristbook.reading.quantity import Quantity, any_quantity
from gristbook.reading.tree import Node, Table, Text
from gristbook.text.vocabulary import RECIPE

EXAMPLE = "something like 1.048 ± 0.002"

BOUND = r"(?:[<>≤≥]|under|over|below|above|max|min|at (?:least|most)|less than|more than|up to).*\d.*"
PLUS_OR_MINUS = re.compile(r"±|\+/?-")

IN_ITS_UNIT = {
    ("original-gravity", "°P"): "original-extract",
    ("final-gravity", "°P"): "apparent-extract",
    ("colour", "EBC malt"): "colour-ebc",
}
"""The same figure in another scale is a figure of its own: which, by the unit that an author gives it in."""

Stated = tuple[tuple[Text, Node], ...]
"""Names of figures at the top of a recipe, and what it says of them."""


def stated_apart(front: Table) -> tuple[Table, Stated]:
    """The fields of a recipe, and the figures that it states beside them, as IBU: 35."""
    stated = tuple(
        (key, node)
        for key, node in front.entries
        if figure_called(key.value) is not None and field_called(RECIPE, key.value) is None
    )
    return Table(tuple(entry for entry in front.entries if entry not in stated), front.place), stated


def read_expectations(table: Table | None, stated: Stated, problems: Problems) -> Iterator[Expectation]:
    """What stands under `expect:` or is stated by itself; what cannot be read has filed its problem."""
    for key, node in (*(table.entries if table else ()), *stated):
        if not isinstance(node, Text):
            problems.error(node.place, f"{key.value} is not a number", expected=EXAMPLE)
        elif fits(BOUND, node.value):
            problems.warning(node.place, f'{key.value} "{node.value}" is a bound, and not compared', expected=EXAMPLE)
        elif read := any_quantity(node, problems, "not a figure", EXAMPLE, remarks=True):
            figure = figure_called(key.value)
            name, by_itself = figure.id if figure is not None else key.value, (key, node) in stated
            yield expectation(name, read, key.place, stated=by_itself)


def expectation(figure: str, read: Quantity, place: Place, *, stated: bool = True) -> Expectation:
    """What an author expects of a figure, in the scale that he says it in; ± 0 is as good as no ±.

    A range that is only ``stated``, as OG: 1.048-1.052, pins nothing: its middle is compared.
    """
    figure, own = IN_ITS_UNIT.get((figure, read.base), figure), (figure, read.base) in IN_ITS_UNIT
    pinned = None if stated and not PLUS_OR_MINUS.search(read.text) else read.tolerance
    return Expectation(figure, read.number, pinned or None, "" if own else read.base, place)


def read_intentions(table: Table | None, problems: Problems) -> Iterator[Intention]:
    """What stands under `meant:`, each with its reason."""
    entries: Iterable[tuple[Text, Node]] = table.entries if table else ()
    for key, node in entries:
        if isinstance(node, Text) and node.value:
            name, reason = key.value, " ".join(node.value.split())
            if figure_called((parts := reason.partition(": "))[0]) and parts[2]:  # as in style: final gravity: why
                name, reason = f"{name}: {parts[0]}", parts[2]
            yield Intention(_advice(name), reason, key.place)
        else:
            problems.error(node.place, f"{key.value} needs a reason", expected="words that the page can show")


def _advice(words: str) -> str:
    """The name of advice in today's words, where it bears a figure's."""
    about, colon, name = words.partition(": ")
    figure = figure_called(name)
    return f"{about}{colon}{figure.words}" if figure is not None else words
