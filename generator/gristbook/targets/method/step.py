"""What a step of the brew is, and the words that every part of the method shares."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from string import Formatter
from typing import Literal, NamedTuple, TypeAlias

from gristbook.model.extra import Extra
from gristbook.model.moment import BeforePackaging, BeforeTheBoil, BeforeTheEnd, HopUse, Moment, Stage
from gristbook.model.recipe import Recipe
from gristbook.pantry.pantry import ours
from gristbook.sheet.value import Value
from gristbook.targets.results import HopFigures, YeastFigures

Ready: TypeAlias = Literal["starter", "weigh", "crush", "clean", "water"]
Grain: TypeAlias = Literal["heat", "steep", "mash", "rest", "infuse", "decoct", "warm", "sparge", "drain", "check"]
Boil: TypeAlias = Literal["first-wort", "dissolve", "boil", "hops", "addition", "coil", "flameout", "stand"]
Cellar: TypeAlias = Literal["sanitise", "cool", "top-up", "read", "pitch", "ferment", "feed", "dry-hop", "finished"]
Glass: TypeAlias = Literal["prime", "bottle", "keg", "keep", "serve"]
Kind: TypeAlias = Ready | Grain | Boil | Cellar | Glass
"""What is done in a step; cautions are placed by it."""

Rank: TypeAlias = Literal["day", "grave", "step"]
"""How loudly a caution is said on the day: once at its start; at its step, as of what kills, burns or maims, and never
folded away; or at its step, where it may be folded."""

Sentence: TypeAlias = tuple[str | Value, ...]
"""Words and values in their order, spaces in the words: whoever shows it shows each value in both systems of units."""

Thing: TypeAlias = Value | Sentence | str | None
"""What a sentence may be about; nothing, or an empty list, where a brew has none of it."""


@dataclass(frozen=True, slots=True)
class Step:
    """A step of the brew as a beginner follows it: what is done, a heading, one to four short sentences, cautions.

    ``aids`` are what the page of cautions says to do if it happens all the same, by their names there. ``ranks`` says
    how loudly each caution is said.
    """

    kind: str
    title: str
    sentences: tuple[Sentence, ...]
    cautions: tuple[Sentence, ...]
    aids: tuple[str, ...] = ()
    ranks: tuple[Rank, ...] = ()
    clock: Clock | None = None


class Clock(NamedTuple):
    """What a clock is set to in a step, in minutes: how long it takes, or when before the end of the boil it is due."""

    minutes: float
    before_the_end: bool = False


class Draft(NamedTuple):
    """A step before its cautions are placed."""

    kind: Kind
    title: str
    sentences: tuple[Sentence, ...]
    clock: Clock | None


def draft(kind: Kind, title: str, *sentences: Sentence | str, **things: Thing) -> Draft:
    """A step before its cautions; a sentence is whole or in words about the things, and one about none is left out.

    The thing called ``time`` is what its clock runs; ``before`` is when before the end of the boil it is due.
    """
    said = (it if isinstance(it, tuple) else say(it, **things) for it in sentences)
    return Draft(kind, title, tuple(sentence for sentence in said if sentence), _clock(**things))


def _clock(time: Thing = None, before: Thing = None, **_: Thing) -> Clock | None:
    for minutes in (before, time):
        if isinstance(minutes, Value) and minutes.unit == "min":
            return Clock(minutes.number, minutes is before)
    return None


def say(words: str, **things: Thing) -> Sentence:
    """A sentence with things set in at the names in braces; none about a thing that is not there.

    >>> say("Add {hops} and stir.", hops=("20 g", " of Fuggle"))
    ('Add ', '20 g', ' of Fuggle', ' and stir.')
    >>> say("Add {hops} and stir.", hops=())
    ()
    """
    whole: list[str | Value] = []
    for text, name, _, _ in Formatter().parse(words):
        thing = things[name] if name is not None else ""
        if thing is None or thing == ():
            return ()
        whole += [text, *(thing if isinstance(thing, tuple) else (thing,))]
    return tuple(part for part in whole if part != "")


def listed(parts: Sequence[Sentence]) -> Sentence:
    """Parts as one speaks them: commas, and an "and" before the last."""
    whole: list[str | Value] = []
    for index, part in enumerate(parts):
        if index:
            whole.append(" and " if index == len(parts) - 1 else ", ")
        whole += part
    return tuple(whole)


def names(of: Iterable[str]) -> str:
    """Names as one speaks them, each once.

    >>> names(["Fuggle", "Irish moss", "Fuggle"])
    'Fuggle and Irish moss'
    """
    return "".join(str(part) for part in listed([(name,) for name in dict.fromkeys(map(spoken, of))]))


def weighed(amount: Value, name: str) -> Sentence:
    """So much of a thing."""
    return amount, f" of {spoken(name)}"


def measured(extra: Extra) -> Sentence:
    """So much of a fining, a spice or a salt: a weight or a spoon as a value, pieces in the author's own words.

    An edition has no words of the author's for what it scaled.
    """
    said = (f" ({extra.said})",) if extra.said else ()
    if extra.amount is not None and (extra.amount.unit != "pieces" or not extra.written):
        return (*weighed(extra.amount, extra.name), *said)
    return (f"{extra.written} {spoken(extra.name)}".strip(), *said)


_PLAIN_WORDS = """
    acidulated allspice altbier amber amylase anise aromatic ascorbic baking basil bay beech-smoked biscuit black
    bog brandy brown brumalt buckwheat calcium candi caramel caraway cardamom carrageenan chalk chamomile chilli
    chit chitosan chocolate cinnamon clove cocoa coconut coffee cold coriander cumin dehusked dextrin diammonium
    distilled dried egg elderflower extra fennel flaked gelatine ginger glucoamylase glucose gluten-reducing golden
    grains grapefruit green gypsum hard hazy heather hibiscus honey hot invert isinglass juniper kveik lactic
    lactose lavender lemon lemongrass light lime liquid liquorice mace magnesium maize maltodextrin maple melanoidin
    mild millet mint mixed moderately molasses nutmeg oak oat orange pale peanut peat-smoked pectic phosphoric
    potassium reverse-osmosis rice roasted rose rosemary rum rye saffron sage saison silica six-row slaked sodium
    soft sorghum spelt spirit spruce star sucrose table thyme tonka torrefied turmeric unmalted vanilla very wheat
    whisky wine woodruff yarrow yeast
"""
_KITCHEN = {
    "Calcium chloride, dihydrate": "Calcium chloride dihydrate",
    **{sugar.name: f"{sugar.name} ({sugar.sold_as})" for sugar in ours("sugars").records if sugar.sold_as},
}
"""Names of the pantry that no shop puts on a bag, with the one that it does."""

_PLAIN = frozenset(_PLAIN_WORDS.split()) | {it.name.split()[0].lower() for it in ours("fruits").records}
"""First words of the pantry's names that are no proper nouns, so that they lose their capital within a sentence."""


def spoken(name: str) -> str:
    """A name of the pantry as it stands in a sentence.

    >>> spoken("Dried malt extract, extra light"), spoken("Munich malt, dark"), spoken("Fuggle")
    ('extra light dried malt extract', 'dark Munich malt', 'Fuggle')
    """
    name = _KITCHEN.get(name, name)
    head, *rest = name.split(", ")
    first = head.split(" ", 1)[0]
    plain = head[:1].lower() + head[1:] if first.lower() in _PLAIN else head
    return " ".join([*reversed(rest), plain])


def boiled(extra: Extra, boil: Value) -> Value | None:
    """Minutes before the end of the boil at which an extra goes in; `None` for one that goes in elsewhere."""
    if extra.moment is Stage.KETTLE:
        return boil
    return extra.moment.minutes if isinstance(extra.moment, BeforeTheEnd) else None


def kept_in(moment: HopUse | Moment | BeforeTheBoil | None) -> Value | None:
    """Days that what goes in then lies in the beer before it is packaged; `None` where it does not."""
    return moment.days if isinstance(moment, BeforePackaging) else None


def hops_at(hops: Iterable[HopFigures], stage: Stage) -> list[Sentence]:
    """The hops that go in at a stage of the brew, with their weights."""
    return [weighed(line.mass, line.hop.name) for line in hops if line.hop.use is stage]


def yeast_at(plan_yeasts: Iterable[YeastFigures], stage: Stage) -> list[Sentence]:
    """The yeasts that go in at a stage after pitching, with their amounts."""
    return [of_yeast(line) for line in plan_yeasts if line.yeast.moment is stage]


def of_yeast(line: YeastFigures) -> Sentence:
    """So much of a yeast."""
    called = spoken(line.yeast.name)
    kind = called if "yeast" in called.casefold() or line.yeast.bacteria else f"{called} yeast"
    own = line.yeast
    if own.age is None:
        return line.amount, f" of {kind}{f' ({own.called})' if own.called else ''}"
    return line.amount, f" of {kind} ({f'{own.called}, ' if own.called else ''}", own.age, " old)"


def at_stage(recipe: Recipe, stage: Stage) -> list[Extra]:
    """What goes in at a stage of the brew, in the recipe's order."""
    return [extra for extra in recipe.extras if extra.moment is stage]
