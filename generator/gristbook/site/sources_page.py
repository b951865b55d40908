"""What the page of sources is given: each published work that a figure rests on, and the equations that do."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from gristbook.equations.registry import Equation, Source
from gristbook.sheet.origin import By, Given, Worked
from gristbook.sheet.value import Value, lineage
from gristbook.site.resting import figures_by_source
from gristbook.site.words import capital
from gristbook.targets.figures import NAMED, Plan

NEARLY_ALL = 0.5
"""From this share of all named figures on, a list of them says less than a word."""

ELSEWHERE = ("figures of ingredients and of brews",)
"""What rests on a work that no recipe's own figure rests on."""


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


def sources_page(plans: Sequence[Plan], values: Iterable[Value]) -> SourcesPage:
    """The bibliography of all that the pages show: ``values`` are everything whose working they print."""
    used: dict[str, Equation] = {}
    taken: dict[tuple[str, float, str], Value] = {}
    for value in lineage(*values):
        match value.made:
            case Worked(equation=equation):
                used[equation.name] = equation
            case Given(by=by, words=words, place=None) if by is not By.CONSTANT:
                taken[value.label, value.number, words] = value
    styles = {plan.recipe.style.source for plan in plans if plan.recipe.style}
    return SourcesPage(
        _sources(used.values(), figures_by_source(plans)),
        tuple((capital(key[0]), taken[key], key[2]) for key in sorted(taken)),
        tuple(sorted(styles)),
    )


def _sources(equations: Iterable[Equation], figures: Mapping[str, tuple[str, ...]]) -> tuple[SourceRow, ...]:
    """By author and year; what is nobody's in particular comes last."""
    by_source: dict[Source, list[Equation]] = {}
    for equation in sorted(equations, key=lambda equation: equation.name):
        by_source.setdefault(equation.source, []).append(equation)
    ordered = sorted(by_source, key=lambda s: ("no source" in s.standing, s.authors.split(". ")[-1], s.year, s.key))
    return tuple(
        SourceRow(
            work,
            tuple((equation_name(equation, work), equation) for equation in by_source[work]),
            _unless_nearly_all(figures.get(work.key, ELSEWHERE)),
        )
        for work in ordered
    )


def _unless_nearly_all(names: tuple[str, ...]) -> tuple[str, ...]:
    return names if len(names) < NEARLY_ALL * len(NAMED) else ()


def equation_name(equation: Equation, source: Source) -> str:
    """An equation's name in words, an author's name with its capital."""
    surnames = {part.strip(",.").lower(): part.strip(",.") for part in source.authors.split()}
    words = equation.name.partition(".")[2].split("_")
    words = [word.upper() if word in ("srm", "ebc", "abv", "abw") else surnames.get(word, word) for word in words]
    named = " ".join(words)
    return capital(named)
