"""What the page of sources is given: each published work that a figure rests on, and the equations that do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from gristbook.equations import sources
from gristbook.equations.registry import Equation, Source, called
from gristbook.model.figures import FIGURES, words_of
from gristbook.sheet.origin import By, Given, Worked, put_in
from gristbook.sheet.value import Value, lineage, taught
from gristbook.site.beer.known import Known
from gristbook.site.words import capital
from gristbook.site.working.walk import told_of
from gristbook.targets.figures import Plan

NEARLY_ALL = 0.5
"""From this share of all named figures on, a list of them says less than a word."""

ELSEWHERE = ("figures of ingredients and of brews",)
"""What rests on a work that no recipe's own figure rests on."""


def _order(work: Source) -> tuple[bool, str, str, str]:
    """By author and year; what is nobody's in particular comes last."""
    return "no source" in work.standing, work.authors.split(". ")[-1].casefold(), work.year, work.key


WORKS: Mapping[str, int] = {
    work.key: number
    for number, work in enumerate(
        sorted((it for it in vars(sources).values() if isinstance(it, Source)), key=_order), 1
    )
}
"""The number of every work that an equation rests on, by its key: the same in every book, whatever it uses of them."""


@dataclass(frozen=True, slots=True)
class SourceRow:
    """A published work, the equations that rest on it by name, and the figures that do: none where nearly all do."""

    work: Source
    equations: tuple[tuple[str, Equation], ...]
    figures: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SourcesPage:
    """The bibliography; ``taken`` are numbers that no recipe states and the method takes for granted, and whose."""

    sources: tuple[SourceRow, ...]
    taken: tuple[tuple[str, Value, str], ...]
    styles: tuple[str, ...]

    @property
    def letters(self) -> tuple[tuple[str, str], ...]:
        """The first work under each letter of its author, by its key; what is nobody's in particular has none."""
        first: dict[str, str] = {}
        for row in self.sources:
            nobody, name, *_ = _order(row.work)
            if not nobody:
                first.setdefault(name[0].upper(), row.work.key)
        return tuple(first.items())


@dataclass(frozen=True, slots=True)
class Used:
    """What some figures rest on: equations by name, numbers that no recipe states, and figures by their works' keys.

    A number goes by what it is called, by itself and by the words of who gives it.
    """

    equations: frozenset[str]
    taken: Mapping[tuple[str, float, str], Value]
    figures: Mapping[str, tuple[str, ...]]


def used(it: Known) -> Used:
    """What all that the pages of a beer show rests on."""
    return _used(told_of(it.beer.home.workings.walks), _figures_by_source(it.plan))


def sources_page(beers: Sequence[Known], values: Iterable[Value]) -> SourcesPage:
    """The bibliography of all that the pages show: ``values`` are those of no beer whose working they tell."""
    every = [*(beer.ask(used) for beer in beers), _used(values, {})]
    taken = {key: value for it in every for key, value in it.taken.items()}
    figures: dict[str, dict[str, None]] = {}
    for it in every:
        for key, names in it.figures.items():
            figures.setdefault(key, {}).update(dict.fromkeys(names))
    order = {row.words: place for place, row in enumerate(FIGURES)}
    by_source = {
        key: tuple(sorted(names, key=lambda name: (order.get(name, len(order)), name)))
        for key, names in figures.items()
    }
    equations = frozenset[str]().union(*(it.equations for it in every))
    return SourcesPage(
        _sources(map(called, equations), by_source),
        tuple((capital(key[0]), taken[key], key[2]) for key in sorted(taken)),
        tuple(sorted({style.source for beer in beers if (style := beer.style)})),
    )


def _used(values: Iterable[Value], figures: Mapping[str, tuple[str, ...]]) -> Used:
    equations: set[str] = set()
    taken: dict[tuple[str, float, str], Value] = {}
    for value in values:
        match value.made:
            case Worked(equation=equation):
                equations.add(equation.name)
            case Given(by=by, words=words, place=None) if by is not By.CONSTANT:
                taken[value.label, value.number, words] = value
    return Used(frozenset(equations), taken, figures)


def _sources(equations: Iterable[Equation], figures: Mapping[str, tuple[str, ...]]) -> tuple[SourceRow, ...]:
    by_source: dict[Source, list[Equation]] = {}
    for equation in sorted(equations, key=lambda equation: equation.name):
        by_source.setdefault(equation.source, []).append(equation)
    ordered = sorted(by_source, key=_order)
    return tuple(
        SourceRow(
            work,
            tuple((equation_name(equation, work), equation) for equation in by_source[work]),
            _unless_nearly_all(figures.get(work.key, ELSEWHERE)),
        )
        for work in ordered
    )


def _unless_nearly_all(names: tuple[str, ...]) -> tuple[str, ...]:
    return names if len(names) < NEARLY_ALL * len(FIGURES) else ()


def equation_name(equation: Equation, source: Source) -> str:
    """An equation's name in words, an author's name with its capital."""
    surnames = {part.strip(",.").lower(): part.strip(",.") for part in source.authors.split()}
    words = equation.name.partition(".")[2].split("_")
    words = [word.upper() if word in ("srm", "ebc", "abv", "abw") else surnames.get(word, word) for word in words]
    named = " ".join(words)
    return capital(named)


def _figures_by_source(plan: Plan) -> Mapping[str, tuple[str, ...]]:
    """The figures of a plan whose lineage rests on a work, by its key."""
    found: dict[str, dict[str, None]] = {}
    named = [*((words_of(figure), value) for figure, value in plan.named.items()), *_in_tables(plan)]
    works: dict[int, frozenset[str]] = {}
    for value in lineage(*(value for _, value in named)):
        under = [] if taught(value) else [works[id(it)] for it in put_in(value.origin)]
        own = {value.made.equation.source.key} if isinstance(value.made, Worked) else ()
        works[id(value)] = frozenset(own).union(*under)
    for name, value in named:
        for key in sorted(works[id(value)]):
            found.setdefault(key, {})[name] = None
    return {key: tuple(names) for key, names in found.items()}


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
