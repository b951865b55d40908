"""The rows of advice: figure, usual span, words, reason and standing. To teach another thing, add a row."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import inf

from gristbook.equations.mash_enzymes import LEAST_DIASTATIC_POWER
from gristbook.model.figures import words_of
from gristbook.sheet.value import Value, number
from gristbook.targets.advice import slip_figures as where
from gristbook.targets.advice.advice import Row, Span, Weight
from gristbook.targets.advice.bound_rows import BOUNDS
from gristbook.targets.advice.grist_rows import GRIST
from gristbook.targets.advice.process_rows import PROCESS
from gristbook.targets.advice.water_rows import WATER
from gristbook.targets.beer.pitching import first, usual_dose
from gristbook.targets.figures import Plan
from gristbook.targets.results import YeastFigures

YEAR_DAYS = 365.0


SOURING = "sours wort before it is boiled"
"""What the pantry says of a culture that makes lactic acid."""


def _figure(figure: str) -> Callable[[Plan], Value | None]:
    return lambda plan: plan.sheet.get(figure)


def _base_span(plan: Plan) -> Span | None:
    """Raw wheat or oats may take the place of base malt, as they do in a white beer: they have a bound of their own."""
    raw = plan.sheet.get("unmalted-grain")
    return max(0.75 - (raw.number if raw else 0.0), 0.4), inf


def _soured(plan: Plan) -> bool:
    """Whether sourness takes the place of bitterness."""
    return any(extra.purpose == SOURING for extra in plan.recipe.extras)


def _style(span: str) -> Callable[[Plan], Span | None]:
    return lambda plan: getattr(plan.recipe.style, span) if plan.recipe.style else None


def _dried(plan: Plan) -> YeastFigures | None:
    pitched = first(plan.figures.pitch)
    return pitched[0] if len(pitched) == 1 and pitched[0].dose is not None else None


def _dose(plan: Plan) -> Value | None:
    """The dose of dried yeast, where even its most lively cells would be too few, or its laziest more than enough."""
    line, pitch = _dried(plan), plan.figures.pitch
    if line is None or pitch is None or line.cells.low <= pitch.cells.number <= line.cells.high:
        return None
    return line.dose


def _dose_span(plan: Plan) -> Span:
    dose = usual_dose(plan.recipe, plan.figures.wort)
    return dose.low, dose.high


def _pitched_cold(plan: Plan) -> Value | None:
    """How cold dried lager yeast is pitched, where its dose is not the large one for the cold."""
    pitched = first(plan.figures.pitch)
    lagers = [line.dose.number for line in pitched if line.dose is not None and line.yeast.kind == "lager"]
    if not lagers or plan.recipe.pitched_at is None or round(sum(lagers), 1) >= _dose_span(plan)[0]:
        return None
    return plan.recipe.pitched_at


def _primed(plan: Plan) -> Value | None:
    """The priming sugar that a recipe speaks of (g/L), where it says the gas as well."""
    return plan.figures.packaging.told if plan.figures.packaging is not None else None


def _usually_primed(plan: Plan) -> Span | None:
    packaging = plan.figures.packaging
    dose = packaging.sugar_per_litre if packaging is not None else None
    return (round(0.9 * dose.number, 1), round(1.1 * dose.number, 1)) if dose is not None else None


def _liquid_cells(plan: Plan) -> Value | None:
    pitch = plan.figures.pitch
    return first(pitch)[0].cells if pitch and len(first(pitch)) == 1 and _dried(plan) is None else None


def _liquid_span(plan: Plan) -> Span | None:
    return (0.75 * plan.figures.pitch.cells.number, inf) if plan.figures.pitch else None


def _yeast_span(plan: Plan) -> Span:
    yeasts = plan.recipe.pitched
    return min(yeast.coolest_c for yeast in yeasts), max(yeast.warmest_c for yeast in yeasts)


def _oldest(ages: Iterable[Value | None]) -> Value | None:
    return max((age for age in ages if age is not None), key=number, default=None)


def _steeped_starch(plan: Plan) -> Value | None:
    """Weight of a grain that is steeped although only a mash converts it."""
    malts = plan.figures.grist.malts
    return next((line.mass for line in malts if line.malt.steep is not None and line.malt.needs_mash), None)


ROWS: tuple[Row, ...] = (
    Row(
        "base malt",
        _figure("base-malt"),
        _base_span,
        "There is less base malt than usual.",
        "",
        "Base malt is the bread of the beer: it brings most of the extract and all of the enzymes.",
        where=where.most_grain,
    ),
    Row(
        "specialty malt",
        _figure("specialty-malt"),
        (0.0, 0.20),
        "",
        "There is more specialty malt than usual.",
        "Past a fifth of the grist, caramel and roast drown the rest, and much of what they bring does not ferment.",
        where=where.most_colouring,
    ),
    Row(
        "sugar",
        _figure("sugar"),
        (0.0, 0.20),
        "",
        "There is more sugar than usual.",
        "Sugar brings strength and nothing else; past a fifth the beer grows thin, and the yeast goes short of food.",
        where=where.most_sugar,
    ),
    Row(
        "diastatic power",
        _figure("diastatic-power"),
        lambda plan: (LEAST_DIASTATIC_POWER, inf) if plan.figures.grist.mashed is not None else None,
        "The grist may not have the enzymes to convert its own starch.",
        "",
        "Unmalted grain and dark malts live off the enzymes of the pale ones.",
        "an encyclopaedia of beer: 35 °Lintner for a malt that converts itself; older texts say 40 for a grist",
        where=where.most_grain,
    ),
    Row(
        "starch",
        _steeped_starch,
        (-inf, 0.0),
        "",
        "A grain is steeped that only a mash converts.",
        "Its starch goes into the beer as it is: a haze, and food for bacteria. Mash it with some base malt.",
    ),
    Row(
        "bitterness to gravity",
        lambda plan: None if _soured(plan) else plan.sheet.get("bitterness-to-gravity"),
        (0.2, 1.1),
        "It is sweet for its bitterness.",
        "It is bitter for its malt.",
        "Bitterness and sweetness answer each other; far from the middle, one of them is all that is tasted.",
        where=where.most_bitter,
    ),
    Row(
        "late hops",
        _figure("late-and-dry-hops"),
        (0.0, 20.0),
        "",
        "There are very many hops late and dry.",
        "Past this the hop drowns the malt, and leaves and powder keep more beer than they flavour.",
        where=where.most_hops,
    ),
    Row(
        "dried yeast",
        _dose,
        _dose_span,
        "There is little yeast for this wort.",
        "There is more yeast than this wort needs.",
        "Too little yeast starts late and tires early; far too much leaves its own taste.",
        where=where.first_yeast,
    ),
    Row(
        "cold dried lager yeast",
        _pitched_cold,
        (11.0, inf),
        "Do not pitch dried lager yeast so cold.",
        "",
        "At an ordinary dose it wants wort of 11 °C or more: cool it on once it foams, or give it 2 to 3 g/L at 9 °C.",
        "makers' directions: 0.8 to 1.2 g/L, not under 11 °C; 2 to 3 g/L at 9 °C",
        where=where.first_yeast,
    ),
    Row(
        "liquid yeast",
        _liquid_cells,
        _liquid_span,
        "There is little yeast for this wort.",
        "",
        "Too little yeast starts late and tires early: grow a starter, or buy another pack.",
        "three quarters of what the pitch rate asks for: common practice, no source",
        where=where.first_yeast,
    ),
    Row(
        "fermentation temperature",
        lambda plan: plan.recipe.ferment[0].temperature if plan.recipe.ferment else None,
        _yeast_span,
        "It begins cooler than this yeast likes.",
        "It begins warmer than this yeast likes.",
        "Cold yeast falls asleep; hot yeast makes solvent and fruit.",
        "the pantry: typical range of the family, from memory",
    ),
    Row(
        "alcohol and yeast",
        _figure("alcohol-by-volume"),
        lambda plan: (0.0, max(yeast.tolerance_abv for yeast in plan.recipe.yeasts)),
        "",
        "It is stronger than this yeast bears.",
        "The yeast may stop before the plan does, and leave the beer sweet.",
        "the pantry: typical tolerance of the family, from memory",
        where=where.first_yeast,
    ),
    Row(
        "old yeast",
        lambda plan: _oldest(yeast.age for yeast in plan.recipe.yeasts),
        (0.0, 180.0),
        "",
        "The yeast is more than half a year old.",
        "Half of a pack or more may be dead by then: grow a starter, and let its foam be the judge.",
    ),
    Row(
        "priming sugar",
        _primed,
        _usually_primed,
        "There is less priming sugar than makes the gas that is wanted.",
        "There is more priming sugar than makes the gas that is wanted.",
        "The method goes by the gas: what fermentation left of it depends on how warm the beer has been.",
        "common practice, no source: a tenth of it",
    ),
    Row(
        "carbonation",
        _figure("carbonation"),
        (1.3, inf),
        "There is little gas.",
        "",
        "Below this even an ale from the cask is called flat.",
    ),
    Row(
        "old hops",
        lambda plan: _oldest(hop.store.days if hop.store else None for hop in plan.recipe.hops),
        (0.0, YEAR_DAYS),
        "",
        "The hops are more than a year old.",
        "Alpha acids fade and aroma turns to cheese; last year's hops are best kept for bittering, or the compost.",
    ),
    *(
        Row(
            f"style: {words_of(figure)}",
            _figure(figure),
            _style(span),
            f"Its {words_of(figure)} is below the style's.",
            f"Its {words_of(figure)} is above the style's.",
            "A style is a description and not a law: brew what you like, and call it what it is.",
            "the style's guideline, as the pantry cites it",
            weight=Weight.STYLE,
            doubted=True,
            where=where.the_style,
        )
        for figure, span in (
            ("original-gravity", "original_gravity"),
            ("final-gravity", "final_gravity"),
            ("alcohol-by-volume", "strength"),
            ("bitterness", "bitterness"),
            ("colour", "colour"),
        )
    ),
    *GRIST,
    *PROCESS,
    *WATER,
    *BOUNDS,
)
"""What weighs alike is said in this order."""
