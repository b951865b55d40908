"""What a number may turn out to be: its doubts carried up its lineage, and a choice of models as models, unaveraged."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import product
from math import isfinite
from statistics import fmean
from typing import TYPE_CHECKING, TypeAlias

from gristbook.refusal import Refusal
from gristbook.sheet import signs
from gristbook.sheet.doubts import Doubts, Triple, added_up, mixed, sums_of, triple_of
from gristbook.sheet.origin import Chosen, Decided, Given, Origin, Read, Reckoned, Taught, Worked, beneath, numbers_of
from gristbook.sheet.slopes import carried

if TYPE_CHECKING:
    from gristbook.sheet.value import Value

Picks: TypeAlias = frozenset[tuple[str, str]]
"""Which option was picked of which choices."""

NONE: Picks = frozenset()


@dataclass(frozen=True, slots=True)
class Sure:
    """How far each doubt moves a number, and what it is by each pick of the models that it rests on, if it does."""

    doubts: Doubts
    branches: Mapping[Picks, Value]


CERTAIN = Sure({}, {})
"""How sure most of what is given is."""


def sure_of(value: Value) -> Sure:
    """How sure a value is whose inputs know that of themselves."""
    doubts, branches = _doubts_of(value), _branches_of(value)
    return Sure(doubts, branches) if doubts or branches else CERTAIN


def range_of(value: Value, least: float, most: float) -> tuple[float, float]:
    """The 5th and 95th hundredth of what a value may be, held to the least and the most that there can be of it."""
    triples = [*_triples(value).values()]
    low, _, high = triples[0] if triples else triple_of(value.number, value.sure.doubts)
    if len(triples) > 1:
        low, high = mixed(triples, 0.05), mixed(triples, 0.95)
    low, high = min(low, value.number), max(high, value.number)  # where both ends lie on one side of it
    return min(max(low, least), most), min(max(high, least), most)


def mover_of(value: Value) -> str:
    """The doubt or the choice that moves a value most; nothing where it is certain."""
    moved = {doubt: sums_of(ends).variance for doubt, ends in value.sure.doubts.items()}
    moved |= _of_choices(_triples(value))
    return max(moved.items(), key=lambda it: (it[1], it[0]))[0] if moved else ""


def _triples(value: Value) -> Mapping[Picks, Triple]:
    return {picks: triple_of(branch.number, branch.doubts) for picks, branch in value.sure.branches.items()}


def _of_choices(triples: Mapping[Picks, Triple]) -> Iterator[tuple[str, float]]:
    """The variance that each choice brings: that of the middles of its options, all else alike."""
    for name in sorted({name for picks in triples for name, _ in picks}):
        middles: dict[str, list[float]] = {}
        for picks, triple in triples.items():
            middles.setdefault(dict(picks)[name], []).append(triple.middle)
        means = [fmean(of) for of in middles.values()]
        yield name, fmean([(it - fmean(means)) ** 2 for it in means])


def _doubts_of(value: Value) -> Doubts:
    match value.origin:
        case Given(ends=ends, doubt=doubt):
            return {doubt: ends} if ends and any(ends) else {}
        case Taught(doubts=doubts):
            return doubts
        case Decided():
            return {}
        case Read(of=of, doubts=own):
            return added_up((*of.doubts.items(), *own.items()), value.number)
        case Chosen(of=of):
            return of.doubts
        case Reckoned(sign=sign, parts=parts, factor=factor):
            if sign in signs.TAKEN:
                return {}
            slopes = signs.slopes(sign, tuple(part.number for part in parts), factor)
            moved = [
                (doubt, (slope * low, slope * high))
                for part, slope in zip(parts, slopes, strict=True)
                for doubt, (low, high) in part.doubts.items()
            ]
            return added_up(moved, value.number)
        case Worked(equation=equation, inputs=inputs):
            return carried(equation.function, numbers_of(inputs), inputs)


def _branches_of(value: Value) -> Mapping[Picks, Value]:
    """What a value is by each pick of models, worked out anew from where they part; one that refuses is left out."""
    origin = value.origin
    if isinstance(origin, Chosen):
        return {
            picks | {(origin.name, name)}: branch
            for name, option in origin.options.items()
            for picks, branch in (option.sure.branches or {NONE: option}).items()
        }
    options: dict[str, set[str]] = {}
    for below in beneath(origin):
        if len(below.sure.branches) > 1:
            for picks in below.sure.branches:
                for name, option in picks:
                    options.setdefault(name, set()).add(option)
    if not options:
        return {}
    branches: dict[Picks, Value] = {}
    for pick in product(*options.values()):
        picks = frozenset(zip(options, pick, strict=True))
        branch = _by(value, picks)
        if branch is not None:
            branches[picks] = branch
    return branches


def _by(value: Value, picks: Picks) -> Value | None:
    """A value by other models; `None` where one of them refuses."""
    try:
        number, made = _anew(value.origin, picks)
    except (Refusal, ArithmeticError):
        return None
    return replace(value, number=number, origin=made) if isfinite(number) else None


def _anew(origin: Origin, picks: Picks) -> tuple[float, Origin]:
    def of(below: Value) -> Value:
        branches = below.sure.branches
        if not branches:
            return below
        for own, branch in branches.items():
            if own <= picks:
                return branch
        raise Refusal(f"{below.label} has no number by these models")

    match origin:
        case Worked(equation=equation, inputs=inputs):
            put = tuple((name, tuple(map(of, it)) if isinstance(it, tuple) else of(it)) for name, it in inputs)
            return equation.function(**numbers_of(put)), replace(origin, inputs=put)
        case Reckoned(sign=sign, parts=parts, factor=factor):
            parts = tuple(map(of, parts))
            return signs.result(sign, tuple(part.number for part in parts), factor), replace(origin, parts=parts)
        case Read(of=read):
            return of(read).number, replace(origin, of=of(read))
    raise TypeError("nothing else rests on what is beneath it")
