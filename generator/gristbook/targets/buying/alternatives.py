"""What can stand in for an ingredient: what the pantry names, else its neighbours on the shelf by what they bring.

How near two things are is a sum of plain differences, each weighed as a brewer would weigh it (common practice, no
source); beyond a whole one, nothing is offered.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from math import log2

from gristbook.model.larder import Ingredient
from gristbook.sheet.value import Value
from gristbook.targets.buying.ingredients import usual_share
from gristbook.targets.method.step import Sentence
from gristbook.targets.wort.grist import malt_colour
from gristbook.targets.wort.roles import ADJUNCT_KINDS, SELF_CONVERTING, in_lintner

AT_MOST = 3
FAR = 1.0
"""From this distance on, one is no stand-in for the other."""
ALIKE = 1.15
"""Two numbers whose ratio is below this are told as alike."""
SAME_ATTENUATION, MUCH_WATER = 0.015, 0.05
LEAST = 1e-9
_SHADES = "a clean dark deep dry faint faintly firm light lightly mild rich sharp smooth soft"
SHADES = frozenset(_SHADES.split())
"""Words for how strong or how fine a taste is, which say nothing of what it is."""


@dataclass(frozen=True, slots=True)
class StandIn:
    """An ingredient that may be taken instead, and why it is near."""

    other: Ingredient
    why: Sentence


def stand_ins(it: Ingredient, larder: Iterable[Ingredient]) -> tuple[StandIn, ...]:
    """Those of the same shelf that the pantry names, else the nearest, the nearest first; none where none is near."""
    if it.shelf not in _MEASURES:
        return ()
    why = _MEASURES[it.shelf][1]
    others = {other.name: other for other in larder if other.shelf == it.shelf and other.name != it.name}
    if named := [others[name] for name in it.stand_ins if name in others]:
        return tuple(StandIn(other, (it.stand_ins[other.name], "; ", *why(it, other))) for other in named)
    measured = ((measure(it, other), other) for other in others.values())
    near = sorted((far, other.name, other) for far, other in measured if far < FAR)
    return tuple(StandIn(other, why(it, other)) for _, _, other in near[:AT_MOST])


def measure(one: Ingredient, other: Ingredient) -> float:
    """How far apart two things of one shelf are; less than nothing where they have much in common."""
    return _MEASURES[one.shelf][0](one, other)


def _malts_apart(one: Ingredient, other: Ingredient) -> float:
    return (
        0.4 * _times(_colour(one), _colour(other))
        + 0.2 * _times(usual_share(one).number, usual_share(other).number)
        + 0.7 * (_family(one) != _family(other))
        + 0.6 * (_cereal(one) != _cereal(other))
        + 0.5 * (_converts(one) != _converts(other))
        + 0.3 * (one.words["needs mash"] != other.words["needs mash"])
        + _unlike(one, other)
    )


def _why_malt(one: Ingredient, other: Ingredient) -> Sentence:
    colour = _against(one, other, "colour", ", as dark", ", paler", ", darker")
    grain = (f"; of {other.words['cereal']}",) if one.words["cereal"] != other.words["cereal"] else ()
    return (*colour, *grain, *_in_common(one, other, "taste"))


def _sugars_apart(one: Ingredient, other: Ingredient) -> float:
    return (
        4 * abs(one.figures["fermentable"].number - other.figures["fermentable"].number)
        + 0.3 * _times(_colour(one), _colour(other))
        + 0.2 * (one.words["kind"] != other.words["kind"])
        + _unlike(one, other)
    )


def _why_sugar(one: Ingredient, other: Ingredient) -> Sentence:
    words = (" of it ferments, the same", " of it ferments, less", " of it ferments, more")
    wetter = other.figures["moisture"].number - one.figures["moisture"].number
    wet = (f"; it holds {'more' if wetter > 0 else 'less'} water",) if abs(wetter) > MUCH_WATER else ()
    brings = (f"; it brings {', '.join(other.brings.names)}",) if other.brings.names else ()
    return (*_against(one, other, "fermentable", *words), *wet, *brings, *_in_common(one, other, "taste"))


def _extracts_apart(one: Ingredient, other: Ingredient) -> float:
    return (
        0.6 * _times(_colour(one), _colour(other))
        + 0.8 * (one.words["cereal"] != other.words["cereal"])
        + 0.3 * (one.words["kind"] != other.words["kind"])
    )


def _why_extract(one: Ingredient, other: Ingredient) -> Sentence:
    forms = {"liquid": "a syrup, so weigh more of it", "dried": "dried, so weigh less of it"}
    form = (f"; {forms[other.words['kind']]}",) if one.words["kind"] != other.words["kind"] else ()
    return (*_against(one, other, "colour", ", as dark", ", paler", ", darker"), *form)


def _hops_apart(one: Ingredient, other: Ingredient) -> float:
    shared, either = _shared(one, other, "aroma"), _terms(one, "aroma") | _terms(other, "aroma")
    if not shared:
        return FAR
    uses = {hop.words.get("use", "") for hop in (one, other)} - {""}
    oils = [hop.figures["oil"].number for hop in (one, other) if "oil" in hop.figures]
    return (
        1
        - len(shared) / len(either)
        + 0.3 * _times(one.figures["alpha"].number, other.figures["alpha"].number)
        + 0.3 * (len(uses) > 1)
        + 0.2 * (_times(*oils) if len(oils) > 1 else 0)
    )


def _why_hop(one: Ingredient, other: Ingredient) -> Sentence:
    words = (
        " alpha acids, as strong",
        " alpha acids, so weigh more for the same bitterness",
        " alpha acids, so weigh less for the same bitterness",
    )
    return (*_against(one, other, "alpha", *words), *_in_common(one, other, "aroma"))


def _yeasts_apart(one: Ingredient, other: Ingredient) -> float:
    return (
        8 * abs(one.figures["attenuation"].number - other.figures["attenuation"].number)
        + 0.12 * abs(one.figures["temperature"].number - other.figures["temperature"].number)
        + sum(one.words[word] != other.words[word] for word in ("kind", "phenolic", "diastatic"))
        + 0.2 * (one.words.get("flocculation") != other.words.get("flocculation"))
    )


def _why_yeast(one: Ingredient, other: Ingredient) -> Sentence:
    apart = other.figures["attenuation"].number - one.figures["attenuation"].number
    words = ", as far" if abs(apart) < SAME_ATTENUATION else ", less far" if apart < 0 else ", further"
    warmer = other.figures["temperature"].number - one.figures["temperature"].number
    heat = ("; likes it warmer, around " if warmer > 0 else "; likes it cooler, around ", other.figures["temperature"])
    return ("ferments by ", other.figures["attenuation"], words, *(heat if abs(warmer) >= 1 else ()))


_Measure = tuple[Callable[[Ingredient, Ingredient], float], Callable[[Ingredient, Ingredient], Sentence]]
_MEASURES: Mapping[str, _Measure] = {
    "malts": (_malts_apart, _why_malt),
    "sugars": (_sugars_apart, _why_sugar),
    "extracts": (_extracts_apart, _why_extract),
    "hops": (_hops_apart, _why_hop),
    "yeasts": (_yeasts_apart, _why_yeast),
}
"""By shelf: how far apart two of it are, and the words for why they are near."""


def _against(one: Ingredient, other: Ingredient, figure: str, alike: str, less: str, more: str) -> Sentence:
    """A figure of the other, and how it stands to this one's."""
    mine, theirs = one.figures[figure], other.figures[figure]
    ratio = max(_size(theirs), LEAST) / max(_size(mine), LEAST)
    return theirs, alike if 1 / ALIKE < ratio < ALIKE else less if ratio < 1 else more


def _in_common(one: Ingredient, other: Ingredient, field: str) -> Sentence:
    """What both taste or smell of, in the other's own words."""
    shared = _shared(one, other, field)
    own = [term for term in _split(other, field) if _stem(term) in shared]
    said = " and ".join([", ".join(own[:-1]), own[-1]] if own[1:] else own)
    return (f"; in common: {said}",) if own else ()


def _unlike(one: Ingredient, other: Ingredient) -> float:
    """What nothing in common adds to the distance, and everything in common takes off it."""
    shared = len(_shared(one, other, "taste"))
    return -0.2 * shared if shared else 0.3


def _times(one: float, other: float) -> float:
    """How often one of two numbers has to be doubled to come to the other."""
    return abs(log2(max(other, LEAST) / max(one, LEAST)))


def _size(value: Value) -> float:
    """A number to compare; malt colour in EBC as °L, and none below that of the palest malt."""
    return max(malt_colour(value).number, 1.0) if value.unit in ("°L", "EBC malt") else value.number


def _colour(it: Ingredient) -> float:
    return _size(it.figures["colour"])


def _family(it: Ingredient) -> str:
    return "unmalted" if it.words["kind"] in ADJUNCT_KINDS else it.words["kind"]


def _cereal(it: Ingredient) -> str:
    return "wheat" if it.words["cereal"] == "spelt" else it.words["cereal"]


def _converts(it: Ingredient) -> bool:
    power = it.figures.get("diastatic power")
    return power is not None and in_lintner(power).number >= SELF_CONVERTING


def _shared(one: Ingredient, other: Ingredient, field: str) -> frozenset[str]:
    return _terms(one, field) & _terms(other, field)


def _terms(it: Ingredient, field: str) -> frozenset[str]:
    return frozenset(_stem(term) for term in _split(it, field))


def _split(it: Ingredient, field: str) -> list[str]:
    """The terms of a field in the order they are written; none for what tastes of nothing."""
    said = it.words.get(field, "")
    if said.startswith(("none", "almost none")):
        return []
    return [term for part in re.split(r"[,;]| and ", said) if (term := part.strip())]


def _stem(term: str) -> str:
    """A term without what sets a noun off from its adjective, or a strong taste from a faint one.

    >>> _stem("spicy") == _stem("spice"), _stem("light caramel"), _stem("clean")
    (True, 'caramel', 'clean')
    """
    words = [word for word in term.split() if word not in SHADES]
    return " ".join(words or [term]).rstrip("ey")
