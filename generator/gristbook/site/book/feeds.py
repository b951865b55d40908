"""What other programs read: a recipe's figures as JSON, and a list of the pages for search engines."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from urllib.parse import quote
from xml.sax.saxutils import escape

from gristbook.equations.sources import DEFINITION
from gristbook.model.figures import words_of
from gristbook.model.steps import FermentStep, MashStep
from gristbook.sheet.origin import Given, Worked
from gristbook.sheet.value import Value
from gristbook.site.amounts import bare
from gristbook.site.figures import in_metric
from gristbook.targets.advice.advice import Advice
from gristbook.targets.advice.against import told
from gristbook.targets.advice.allergens import allergens
from gristbook.targets.advice.gas_routes import routes_to_gas
from gristbook.targets.advice.judgement import judgement
from gristbook.targets.advice.unreckoned import unreckoned
from gristbook.targets.batches.results import BatchFigures, Compared
from gristbook.targets.buying.cost import Need, needs
from gristbook.targets.figures import Plan
from gristbook.targets.method.step import Step
from gristbook.targets.method.whole import steps

_ENCODED = json.JSONEncoder(ensure_ascii=False, allow_nan=False).encode


def figures_json(plan: Plan, method: tuple[Step, ...] | None = None, said: tuple[Advice, ...] | None = None) -> bytes:
    """Allergens, what goes in, every figure of a plan that goes by an id, what to do, and what is to be said of it.

    Each figure has its words, value, unit, low and high of nine batches in ten, what moves it most, and its source.
    The ``method`` and what is ``said`` are worked out where they are not at hand.
    What goes in has the amount that is weighed or poured, worked out where the recipe asks for something else.
    """
    recipe, brings = plan.recipe, allergens(plan)
    data = {
        "recipe": recipe.title,
        "batch in litres": float(bare(recipe.batch.number)),
        "brewhouse": plan.brewhouse.name,
        "bitterness model": plan.bitterness_model,
        "colour model": plan.colour_model,
        "allergens": {"contains": list(brings.names), "unknown in": list(brings.unknown)},
        "not reckoned": [told(words) for words in unreckoned(plan)],
        "mash": [_rest(step) for step in recipe.mash],
        "ferment": [_kept_at(step) for step in recipe.ferment],
        "ingredients": [_needed(need) for need in needs(recipe, plan.figures)],
        "figures": {figure: _named(figure, value) for figure, value in plan.sheet.items()},
        "method": [_step(step) for step in (steps(plan) if method is None else method)],
        "advice": [_advice(advice) for advice in (judgement(plan) if said is None else said)],
        "take care": [told(against.words) for against in routes_to_gas(plan)],
    }
    return _written(data)


COLUMNS: Mapping[str, str] = {
    "original-gravity": "gravity",
    "final-gravity": "final",
    "alcohol-by-volume": "strength",
    "bitterness": "bitterness",
    "colour": "colour",
    "carbonation": "gas",
}
"""The figures that all beers of a book are told side by side, each with the head of its column."""


def table_json(plans: Iterable[Plan]) -> bytes:
    """Several beers, each with its file, its batch and its first figures, as `figures_json` tells them."""
    rows = [
        {
            "file": plan.recipe.place.path,
            "recipe": plan.recipe.title,
            "batch in litres": float(bare(plan.recipe.batch.number)),
            "brewhouse": plan.brewhouse.name,
            "figures": {it: _named(it, plan.sheet[it]) for it in COLUMNS if it in plan.sheet},
        }
        for plan in plans
    ]
    return _written({"recipes": rows})


def batch_json(figures: BatchFigures) -> bytes:
    """What was measured at a batch and what had been planned: value, unit, low, high, mover and source of each."""
    batch = figures.batch
    data = {
        "recipe": batch.frozen.title or batch.recipe,
        "brewed": batch.brewed,
        "brewhouse": batch.brewhouse,
        "edition": batch.edition or None,
        "thrown away": batch.thrown_away or None,
        "figures": {row.figure: _compared(row) for row in figures.compared},
        "take care": [told(against.words) for against in (figures.bottles.against if figures.bottles else ())],
        "looks": [
            {
                "when": look.when.isoformat(timespec="minutes"),
                "gravity": _figure(look.reading.gravity) if look.reading else None,
                "temperature": _figure(look.temperature) if look.temperature else None,
            }
            for look in figures.course.moments
        ],
    }
    return _written(data)


def _written(data: Mapping[str, object]) -> bytes:
    """JSON with a line for each member and each figure, so that a difference shows by line."""
    members = []
    for name, value in data.items():
        told = _ENCODED(value)
        if name == "figures" and isinstance(value, Mapping):
            told = "{\n" + ",\n".join(f"  {_ENCODED(it)}: {_ENCODED(figure)}" for it, figure in value.items()) + "\n }"
        elif isinstance(value, Sequence) and any(isinstance(it, Mapping) for it in value):
            told = "[\n" + ",\n".join(f"  {_ENCODED(it)}" for it in value) + "\n ]"
        members.append(f" {_ENCODED(name)}: {told}")
    return ("{\n" + ",\n".join(members) + "\n}\n").encode()


def _needed(need: Need) -> dict[str, object]:
    """Something that goes in; no amount where the recipe says none."""
    return {"for": need.section, "name": need.name, "amount": _amount(need.amount), "note": need.note or None}


def _amount(value: Value | None) -> dict[str, object] | None:
    return {"value": float(bare(value.number)), "unit": value.unit} if value is not None else None


def _rest(step: MashStep) -> dict[str, object]:
    """A rest of the mash, with what it is for and how it is reached, where the recipe says it."""
    held = {"temperature": _amount(step.temperature), "time": _amount(step.minutes)}
    return {"role": step.role, **held, "by": step.way, "water": _amount(step.water), "note": step.note or None}


def _kept_at(step: FermentStep) -> dict[str, object]:
    """A step of the ferment in the recipe's word for it; ``to`` is the other temperature of a ramp, rise or span."""
    held = {"temperature": _amount(step.temperature), "to": _amount(step.end), "time": _amount(step.days)}
    under = {"pressure": _amount(step.pressure), "pitched at": _amount(step.pitched), "note": step.note or None}
    return {"role": step.called or step.role, **held, "way": step.way, **under}


def _step(step: Step) -> dict[str, object]:
    """A step of the method and its cautions, in words and metric units."""
    words, care = ([in_metric(said) for said in them] for them in (step.sentences, step.cautions))
    return {"step": step.title, "words": " ".join(words), "take care": care}


def _advice(advice: Advice) -> dict[str, object]:
    """What a teacher would say, why, and the author's own reason to do it all the same."""
    about = {"words": advice.words, "figure": _figure(advice.figure), "why": advice.reason}
    return {"about": advice.key, **about, "meant": advice.meant or None}


def _named(figure: str, value: Value) -> dict[str, object]:
    """A figure with its words; what only a line has says its own."""
    return {"words": value.label if "/" in figure else words_of(figure), **_figure(value)}


def _compared(row: Compared) -> dict[str, object]:
    planned = _figure(row.planned) if row.planned is not None else None
    return {
        "words": words_of(row.figure),
        "planned": planned,
        "measured": _figure(row.measured),
        "against the plan": row.verdict or None,
    }


def _figure(value: Value) -> dict[str, object]:
    low, high = value.ends
    return {
        "value": float(bare(value.number)),
        "unit": value.unit,
        "low": float(bare(low)),
        "high": float(bare(high)),
        "mover": value.mover or None,
        "source": _source(value),
    }


def _source(value: Value) -> str:
    match value.made:
        case Worked(equation=equation):
            return equation.source.citation
        case Given(words=words, place=place):
            return f"{words} ({place.path}:{place.line})" if place else words
    return DEFINITION.citation


def sitemap(address: str, paths: Iterable[str]) -> bytes:
    """The addresses of all pages, as sitemaps.org has it."""
    pages = "".join(f"<url><loc>{escape(address + quote(path))}</loc></url>\n" for path in sorted(paths))
    head = '<?xml version="1.0" encoding="utf-8"?>\n<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n'
    return f"{head}{pages}</urlset>\n".encode()


def robots(address: str) -> bytes:
    """Everybody may read everything (RFC 9309)."""
    return f"User-agent: *\nAllow: /\n\nSitemap: {address}sitemap.xml\n".encode()
