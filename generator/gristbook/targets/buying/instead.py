"""What may go into a brew in place of a line of it: how much of that, and what it does to the beer.

Hops of the boil go by their alpha acids, so that the bitterness stays; late and dry ones by their oil where both
pages state it, within bounds, else by weight. A coloured malt goes by its colour, and base malt makes up the extract;
all else goes by extract. What comes of it is a balance of what the plan has worked out already: nothing is planned
anew.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from gristbook.equations import alcohol, attenuation, extract, gravity
from gristbook.model.larder import Ingredient
from gristbook.model.recipe import Malt, Sugar
from gristbook.sheet.value import Value, apply, given
from gristbook.targets.buying.alternatives import stand_ins
from gristbook.targets.figures import Plan
from gristbook.targets.hops.bitterness import goes_late
from gristbook.targets.method.step import Sentence, listed, spoken
from gristbook.targets.models import COLOUR
from gristbook.targets.results import HopFigures
from gristbook.targets.wort.grist import malt_colour, potential
from gristbook.targets.wort.roles import role

COLOURED = frozenset({"kilned", "caramel", "roast"})
AT_MOST_TIMES = 4.0
"""Malts whose colours lie further apart than this are not weighed by colour."""
OIL_AT_MOST = 1.5
"""Late hops are weighed up or down by no more than this, for what is published of their oil varies much."""
BY_OIL = "by the oil that both have, by half as much again at most, or else weight for weight"
VISIBLE: Mapping[str, float] = {"bitterness": 0.5, "colour": 0.5, "final gravity": 0.001, "strength": 0.1}
"""A change below this is none, in the unit of the figure."""
NO_MATTER = 0.005
"""So much of the grist's weight is not worth a word: a quarter of a point of gravity."""
HUNDRED = given(100.0, "g", "weight that is stood in for", words="an example")


Change = tuple[str, Value, float]
"""What a figure is called, the figure of the beer as it is planned, and how much higher it comes out."""


@dataclass(frozen=True, slots=True)
class Instead:
    """Another thing and how much of it; what is said of it; how much more of the base malt (kg), and what changes."""

    name: str
    mass: Value
    why: str
    base: str
    more: float
    changes: tuple[Change, ...]

    @property
    def words(self) -> Sentence:
        """What stands behind the weight and the name."""
        besides: Sentence = ()
        if self.more:
            off = given(abs(self.more), "kg", f"{self.base} to make up the extract", words="by a balance")
            besides = ", with ", off, f" {'more' if self.more > 0 else 'less'} of {spoken(self.base)}"
        said: list[str | Value] = []
        for words, before, change in self.changes:
            places = 0 if before.number >= 10 else 3
            if abs(change) >= VISIBLE[words] and round(before.number + change, places) != round(before.number, places):
                after = given(before.number + change, before.unit, f"{words} with {self.name}", words="by a balance")
                said += [", " if said else "; ", f"{words} ", after, " instead of ", before]
        stays = f"; {' and '.join(words for words, _, _ in self.changes)} as planned"
        return (*besides, f": {self.why}" if self.why else "", *(said or [stays]))


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of the grist as a stand-in is reckoned: kg, kg of extract, °L, the share that ferments in real terms."""

    item: Malt | Sugar
    mass: Value
    extract: float
    colour: float

    @property
    def tint(self) -> float:
        return self.mass.number * self.colour


def of_hops(plan: Plan, larder: tuple[Ingredient, ...]) -> tuple[tuple[Instead, ...], ...]:
    """What may be taken instead of each line of hops, in the plan's order.

    A hop that is used twice in one way, early or late, has its others with the first line only; wet hops and extract
    have none, for by weight they are no like of dried hops.
    """
    lines = plan.figures.bitterness.hops
    ways = [(line.hop.name, goes_late(line.hop)) for line in lines]
    return tuple(
        tuple(_hop(line, it, other, plan) for it, other in _others("hops", line.hop.name, larder))
        if ways.index(way) == at and line.hop.form not in ("wet", "extract")
        else ()
        for at, (line, way) in enumerate(zip(lines, ways, strict=True))
    )


def of_grist(plan: Plan, larder: tuple[Ingredient, ...]) -> tuple[tuple[Instead, ...], ...]:
    """What may be taken instead of each malt and then of each sugar, in the plan's order."""
    grist = plan.figures.grist
    lines = [_Line(it.malt, it.mass, it.extract.number, it.colour.number) for it in grist.malts]
    lines += [_Line(it.sugar, it.mass, it.extract.number, malt_colour(it.sugar.colour).number) for it in grist.sugars]
    return tuple(tuple(_grist(line, lines, plan, larder)) for line in lines)


def hop_ratio(it: Ingredient, other: Ingredient, alpha: float, *, late: bool) -> float:
    """How many times the weight of one hop the other weighs that does the same; ``alpha`` is what the first has."""
    if not late:
        return alpha / max(other.figures["alpha"].number, 1e-3)
    oils = [hop.figures["oil"].number if "oil" in hop.figures else 0.0 for hop in (it, other)]
    return min(max(oils[0] / oils[1], 1 / OIL_AT_MOST), OIL_AT_MOST) if all(oils) else 1.0


def weights(it: Ingredient, other: Ingredient) -> Sentence:
    """How much of another thing does what a hundred grams of this one do."""

    def as_much(what: str, mine: Value, theirs: Value) -> Value:
        return (HUNDRED * (mine / theirs)).called(f"{other.name} for the same {what}")

    figures = it.figures, other.figures
    if any(hop["alpha"].number <= 0 for hop in figures if "alpha" in hop) or it.shelf == "yeasts":
        return ()
    if it.shelf == "hops":
        ways = [(as_much("bitterness", *(hop["alpha"] for hop in figures)), " for the same bitterness")]
        late = HUNDRED.number * hop_ratio(it, other, 0.0, late=True)
        ways.append((given(late, "g", f"{other.name}, late or dry", words=BY_OIL), " late or dry"))
    else:
        mine, theirs = (
            apply(
                extract.as_is_potential,
                f"potential of {thing.name}",
                fine_grind_dry_basis=thing.figures["extract"],
                moisture=thing.figures["moisture"],
            )
            for thing in (it, other)
        )
        if theirs.number <= 0:
            return ()
        ways = [(as_much("extract", mine, theirs), " for the same extract")]
        colours = [malt_colour(thing["colour"]) for thing in figures]
        if _by_colour(it.words["kind"], other.words["kind"], *(colour.number for colour in colours)):
            ways.append((as_much("colour", *colours), " for the same colour"))
    return (". For ", HUNDRED, " of it take ", *listed(ways))


def _others(shelf: str, name: str, larder: Iterable[Ingredient]) -> Iterator[tuple[Ingredient, Ingredient]]:
    """A thing of the pantry with each that stands in for it; none where the author's is not the pantry's."""
    it = next((it for it in larder if it.shelf == shelf and it.name == name), None)
    if it is not None:
        for found in stand_ins(it, larder):
            yield it, found.other


def _hop(line: HopFigures, it: Ingredient, other: Ingredient, plan: Plan) -> Instead:
    late = goes_late(line.hop)
    ratio = hop_ratio(it, other, line.alpha.number, late=late)
    bitter = line.bitterness.number * (ratio * other.figures["alpha"].number / max(line.alpha.number, 1e-3) - 1)
    total = plan.figures.bitterness.total
    mass = _taken(it, other, ratio * line.mass.number, line.mass)
    changes = ("bitterness", total, bitter if late else 0.0)
    return Instead(other.name, mass, it.stand_ins.get(other.name, ""), "", 0.0, (changes,))


def _taken(it: Ingredient, other: Ingredient, number: float, mass: Value) -> Value:
    return given(number, mass.unit, f"{other.name} in place of {it.name}", words="by what has to stay")


def _grist(line: _Line, lines: list[_Line], plan: Plan, larder: tuple[Ingredient, ...]) -> Iterator[Instead]:
    item = line.item
    if isinstance(item, Sugar) and item.label:
        return  # a hopped tin brings its bitterness, too
    shelf, name = (
        ("malts", item.name)
        if isinstance(item, Malt)
        else ("extracts" if item.from_malt else "sugars", item.pantry_name)
    )
    base = max((it for it in lines if _is_base(it) and it.item.name != item.name), key=_extract, default=None)
    for it, other in _others(shelf, name, larder):
        if isinstance(item, Malt) and item.steep and other.words["needs mash"] == "yes":
            continue
        gives = other.figures["extract"].number * (1 - other.figures["moisture"].number)
        whole, colour = potential(item).number, malt_colour(other.figures["colour"]).number
        if min(gives, whole, line.mass.number, line.extract) <= 0:
            continue
        brings = line.extract / line.mass.number * gives / whole
        mass, more = (
            _weights(line, base, colour, brings)
            if shelf == "malts" and _by_colour(item.kind, other.words["kind"], line.colour, colour)
            else (0.0, 0.0)
        )
        if mass <= 0 or base is None or base.mass.number + 2 * more <= 0:
            mass, more = line.extract / brings, 0.0
        mass += _kept_by_the_grain(mass + more - line.mass.number, line, plan) / brings
        if abs(more) < NO_MATTER * sum(it.mass.number for it in lines):
            more = 0.0
        tint = mass * colour - line.tint + more * (base.colour if base else 0.0)
        taken, why = _taken(it, other, mass, line.mass), it.stand_ins.get(other.name, "")
        changes = _colour(tint, lines, plan), *_ferments(line, other, plan)
        yield Instead(other.name, taken, why, base.item.name if base else "", more, changes)


def _kept_by_the_grain(heavier_kg: float, line: _Line, plan: Plan) -> float:
    """Extract that a mash loses when its grist is so much heavier (kg): about as large a share as it keeps already."""
    mash = plan.figures.mash
    if mash is None or isinstance(line.item, Sugar) or line.item.steep is not None:
        return 0.0
    brought = sum(it.extract.number for it in plan.figures.grist.malts if it.malt.steep is None)
    return brought * (1 - mash.lauter.number) * heavier_kg / mash.grist.number


def _extract(line: _Line) -> float:
    return line.extract


def _is_base(line: _Line) -> bool:
    if isinstance(line.item, Malt):
        return role(line.item) == "base" and line.item.kind != "smoked"
    return line.item.from_malt


def _by_colour(kind: str, other: str, colour: float, other_colour: float) -> bool:
    both = kind in COLOURED and other in COLOURED
    return both and 1 / AT_MOST_TIMES <= other_colour / max(colour, 0.1) <= AT_MOST_TIMES


def _weights(line: _Line, base: _Line | None, colour: float, brings: float) -> tuple[float, float]:
    """The weight of another malt, and how much more of the base malt, that keep both colour and extract; else none."""
    if base is None or base.mass.number <= 0:
        return 0.0, 0.0
    base_brings = base.extract / base.mass.number
    apart = colour * base_brings - base.colour * brings
    if abs(apart) < 0.05 * colour * base_brings:
        return 0.0, 0.0
    mass = (line.tint * base_brings - line.extract * base.colour) / apart
    return mass, (colour * line.extract - line.tint * brings) / apart


def _colour(tint: float, lines: list[_Line], plan: Plan) -> Change:
    """By how much so many more kilograms times °L turn the beer's colour."""
    found, whole = plan.figures.colour, sum(line.tint for line in lines)
    if whole <= 0:
        return "colour", found.srm, 0.0
    model, units = COLOUR[plan.colour_model], found.malt_colour.number
    return "colour", found.srm, model(colour=max(units * (1 + tint / whole), 0.0)) - model(colour=units)


def _ferments(line: _Line, other: Ingredient, plan: Plan) -> Iterator[Change]:
    """By how much the beer ends higher or lower where a sugar or an extract ferments otherwise."""
    if not isinstance(line.item, Sugar):
        return
    before, after = line.item.attenuation.number, other.figures[FERMENTS[other.shelf]].number
    if line.item.from_malt:
        before, after = (attenuation.real_from_apparent_attenuation(apparent_attenuation=a) for a in (before, after))
    beer, original = plan.figures.fermentation, plan.figures.wort.equivalent_original_plato.number
    share = next(it.share_by_extract.number for it in plan.figures.grist.sugars if it.sugar is line.item)
    rests = [beer.real_extract.number, beer.real_extract.number + original * share * (before - after)]
    ends = [attenuation.apparent_extract(original=original, real=max(rest, 0.0)) for rest in rests]
    finals = [gravity.gravity_from_plato(extract=end) for end in ends]
    strong = [
        alcohol.abv(abw=alcohol.abw_balling(original=original, real=max(rest, 0.0)), gravity=final)
        for rest, final in zip(rests, finals, strict=True)
    ]
    yield "final gravity", beer.final, finals[1] - finals[0]
    yield "strength", beer.abv, strong[1] - strong[0]


FERMENTS: Mapping[str, str] = {"sugars": "fermentable", "extracts": "attenuation"}
"""The figure of the pantry that says how much of a thing ferments."""
