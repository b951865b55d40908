"""What the page of a recipe is given."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from gristbook.charts import FrameCache
from gristbook.sheet.value import Value
from gristbook.site.band import Band, band
from gristbook.site.brewday import BrewDay, brew_day
from gristbook.site.brews_page import Brewed
from gristbook.site.cost import cost_words
from gristbook.site.editions import Changes, Comparison
from gristbook.site.figures import Figure, Sentence, Shown, joined
from gristbook.site.ingredients import Ingredients, ingredients
from gristbook.site.packing import Packing, packing
from gristbook.site.pages import Address, Link
from gristbook.site.pictures import Picture, pictures
from gristbook.site.prose import line
from gristbook.site.remarks import Remark, remarks
from gristbook.site.stamp import Stamp
from gristbook.site.tables import ModelTable, Targets, model_name, model_tables, targets
from gristbook.site.terms import Uses
from gristbook.site.water import WaterView, water_view
from gristbook.site.words import balance_words, colour_word, ready_words
from gristbook.targets.figures import Plan
from gristbook.targets.method_step import Step

STAGES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Getting ready", ("weigh", "crush", "clean", "water")),
    ("Mash", ("heat", "steep", "mash", "rest", "infuse", "decoct", "warm", "sparge", "drain", "check")),
    ("Boil", ("first-wort", "dissolve", "boil", "hops", "addition", "coil", "flameout", "stand")),
    ("Cool and pitch", ("cool", "top-up", "read", "pitch")),
    ("Ferment", ("ferment", "feed", "dry-hop", "finished")),
    ("Package and pour", ("prime", "bottle", "keg", "keep", "serve")),
)
"""The parts of a brew and the kinds of step in each; any other kind (sanitise) belongs to the step that follows."""


@dataclass(frozen=True, slots=True)
class Glance:
    """A line of what one wants to know first."""

    term: str
    words: Sentence


@dataclass(frozen=True, slots=True)
class MethodStep:
    """A step of the method and the cautions that belong to it."""

    title: str
    sentences: tuple[Sentence, ...]
    cautions: tuple[Sentence, ...]


@dataclass(frozen=True, slots=True)
class Stage:
    """A part of the brew; ``first`` is the number of its first step."""

    title: str
    first: int
    steps: tuple[MethodStep, ...]


@dataclass(frozen=True, slots=True)
class RecipePage:
    """A recipe as its page tells it: with ``editions`` beside it, or else with its ``changes`` where it is one."""

    title: Markup
    summary: Markup
    band: Band
    glance: tuple[Glance, ...]
    prose: Markup
    ingredients: Ingredients
    water: WaterView
    method: tuple[Stage, ...]
    remarks: tuple[Remark, ...]
    packing: Packing
    day: BrewDay
    style: str
    targets: tuple[Targets, ...]
    pictures: tuple[Picture, ...]
    bitterness: Figure
    gain_in_stand: Figure | None
    bitterness_model: str
    colour_model: str
    model_tables: tuple[ModelTable, ...]
    brewhouse: str
    at: Address
    stamp: Stamp
    editions: Comparison | None
    changes: Changes | None
    brewed: Brewed | None
    chapters: tuple[Link, ...]
    before: Link | None
    after: Link | None
    learn: Mapping[str, tuple[Link, ...]]


def recipe_page(
    plan: Plan,
    shown: Shown,
    *,
    steps: Sequence[Step],
    at: Address,
    cache: FrameCache,
    prose: Markup | None = None,
    editions: Comparison | None = None,
    changes: Changes | None = None,
    brewed: Brewed | None = None,
    chapters: tuple[Link, ...] = (),
    neighbours: tuple[Link | None, Link | None] = (None, None),
    terms: Uses | None = None,
    learn: Mapping[str, tuple[Link, ...]],
    stamp: Stamp,
) -> RecipePage:
    """The page of one brew, its figures linked to the working that ``shown`` knows, its words to the glossary."""
    recipe, figures = plan.recipe, plan.figures
    gain = figures.bitterness.gain_in_stand
    return RecipePage(
        title=line(recipe.title),
        summary=line(recipe.summary),
        band=band(recipe.slug, figures.colour.srm.number),
        glance=glance(plan, shown),
        prose=prose or Markup(),
        ingredients=ingredients(plan, shown),
        water=water_view(plan, shown),
        method=tuple(_stages(steps, shown, terms)),
        remarks=remarks(plan, shown),
        packing=packing(plan, shown),
        day=brew_day(plan, shown),
        style=recipe.style.name if recipe.style else "",
        targets=targets(plan, shown),
        pictures=pictures(plan, cache),
        bitterness=shown(figures.bitterness.total),
        gain_in_stand=shown(gain) if gain is not None else None,
        bitterness_model=model_name(plan.bitterness_model),
        colour_model=model_name(plan.colour_model),
        model_tables=model_tables(plan, shown),
        brewhouse=plan.brewhouse.name,
        at=at,
        stamp=stamp,
        editions=editions,
        changes=changes,
        brewed=brewed,
        chapters=chapters,
        before=neighbours[0],
        after=neighbours[1],
        learn=learn,
    )


def glance(plan: Plan, shown: Shown) -> tuple[Glance, ...]:
    """The figures that one asks for first, in words and numbers."""
    figures = plan.figures
    wort, beer, volumes = figures.wort, figures.fermentation, figures.volumes
    strength: Sentence = shown.say(beer.abv, " alcohol by volume")
    if figures.packaging and figures.packaging.sugar is not None:
        strength += shown.say(", ", figures.packaging.packaged_abv, " once it is primed")
    lines = [
        Glance("Makes", shown.say(volumes.into_fermenter, " into the fermenter, ", volumes.packaged, " to package")),
        Glance("Strength", strength),
        Glance("Gravity", shown.say(wort.original, ", falling to ", beer.final)),
        Glance(
            "Bitterness",
            shown.say(figures.bitterness.total, f"; {balance_words(figures.bitterness.balance.number)}"),
        ),
        Glance(
            "Colour",
            shown.say(f"{colour_word(figures.colour.srm.number)}, ", figures.colour.srm, ", or ", figures.colour.ebc),
        ),
        Glance("Time", _time(plan, shown)),
    ]
    if figures.packaging:
        ready = figures.packaging.ready
        lines.append(Glance("Ready", shown.say(f"in about {ready_words(ready.number)}, ", ready, " from the yeast on")))
    if plan.cost is not None:
        lines.append(Glance("Cost", cost_words(plan.cost, shown)))
    return tuple(lines)


def _stages(steps: Sequence[Step], shown: Shown, terms: Uses | None) -> Iterator[Stage]:
    """The steps in their stages; a stage that is come back to is told again."""
    titles = {kind: title for title, kinds in STAGES for kind in kinds}
    title, staged = "", []
    for step in reversed(steps):
        title = titles.get(step.kind, title)
        staged.append((title, step))
    first = 1
    for title, group in groupby(reversed(staged), key=lambda pair: pair[0]):
        told = tuple(
            MethodStep(step.title, _said(step.sentences, shown, terms), _said(step.cautions, shown))
            for _, step in group
        )
        yield Stage(title or STAGES[-1][0], first, told)
        first += len(told)


def _said(
    sentences: Iterable[tuple[str | Value, ...]], shown: Shown, terms: Uses | None = None
) -> tuple[Sentence, ...]:
    """Sentences with their figures, and where ``terms`` are given, with their words linked to the glossary."""
    said = (shown.say(*words) for words in sentences)
    if terms is None:
        return tuple(said)
    return tuple(tuple(terms.linked(part) if isinstance(part, str) else part for part in words) for words in said)


def _time(plan: Plan, shown: Shown) -> Sentence:
    held = [shown.say(step.days, " at ", step.temperature) for step in plan.recipe.ferment]
    boil = shown.say(plan.recipe.boil, " of boiling")
    return (*boil, "; ferment ", *joined(held, ", then ")) if held else boil
