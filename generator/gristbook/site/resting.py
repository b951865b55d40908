"""Which figures rest on which published work, by the lineage of every figure that a page has a name for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from gristbook.sheet.origin import Worked, put_in
from gristbook.sheet.value import Value, lineage, taught
from gristbook.targets.figures import NAMED, Plan


def figures_by_source(plans: Iterable[Plan]) -> Mapping[str, tuple[str, ...]]:
    """The names of the figures that rest on a work, by its key: in the order of the brew, then the tables' own."""
    found: dict[str, dict[str, None]] = {}
    for plan in plans:
        named = [*plan.named.items(), *_in_tables(plan)]
        works: dict[int, frozenset[str]] = {}
        for value in lineage(*(value for _, value in named)):
            under = [] if taught(value) else [works[id(it)] for it in put_in(value.origin)]
            own = {value.made.equation.source.key} if isinstance(value.made, Worked) else ()
            works[id(value)] = frozenset(own).union(*under)
        for name, value in named:
            for key in works[id(value)]:
                found.setdefault(key, {})[name] = None
    order = {row.name: place for place, row in enumerate(NAMED)}
    return {
        key: tuple(sorted(names, key=lambda name: (order.get(name, len(order)), name))) for key, names in found.items()
    }


def _in_tables(plan: Plan) -> Iterator[tuple[str, Value]]:
    """Figures that stand in a table of a page and not among the targets."""
    figures = plan.figures
    pairs = [*figures.bitterness.models, *figures.colour.models, *figures.fermentation.strengths]
    pairs += [*figures.serving.models, *(figures.chemistry.mash_ph_models if figures.chemistry else ())]
    pairs += [("", reading) for _, reading in figures.readings.hydrometer]
    if figures.packaging:
        pairs += [("", value) for _, value in (*figures.packaging.keg_pressures, *figures.packaging.bottles)]
    if figures.pitch:
        pairs += [("", cells) for grown in figures.pitch.starters for cells in (grown.standing, grown.stirred)]
        yield from (("cells in the yeast", line.cells) for line in figures.pitch.yeasts)
    yield from ((value.label, value) for _, value in pairs)
