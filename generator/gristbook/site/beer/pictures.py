"""The charts of a recipe: what of its plan each is given, and which table holds the same numbers."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.charts.balance import StyleBox, balance_chart, dots
from gristbook.charts.caches import FrameCache
from gristbook.charts.hops import hops_chart
from gristbook.charts.swatch import colour_swatch
from gristbook.model.style import Style
from gristbook.sheet.value import Value
from gristbook.site.amounts import amount_of
from gristbook.site.band import GLASS_CM, rgb
from gristbook.site.beer.known import Known
from gristbook.site.pages import BALANCE
from gristbook.site.words import colour_word, hop_words, kept_words
from gristbook.targets.figures import Plan

_PATCHES = 12


@dataclass(frozen=True, slots=True)
class Picture:
    """A chart, its caption, the table (its anchor and its name) with its numbers; a file may lie ``under`` it."""

    svg: Markup
    caption: str
    table: str
    table_name: str
    under: str = ""


def pictures(
    plan: Plan, cache: FrameCache, wanted: Sequence[str] = ("hops", "balance", "colour")
) -> Mapping[str, Picture]:
    """The charts of a plan by their names, in the order of the page; one of what it has none of is left out."""
    drawn = {name: CHARTS[name](plan, cache) for name in wanted}
    return {name: picture for name, picture in drawn.items() if picture is not None}


def _hops(plan: Plan, cache: FrameCache) -> Picture | None:
    lines = plan.figures.bitterness.hops
    if not lines:
        return None
    additions = [
        (
            line.hop.name,
            hop_words(line.hop),
            line.bitterness.number,
            line.bitterness.low,
            line.bitterness.high,
            kept_words(line.hop),
        )
        for line in lines
    ]
    additions += [
        (it.kit.name, "by its label", it.bitterness.number, it.bitterness.low, it.bitterness.high, "bitterness")
        for it in plan.figures.bitterness.kits
    ]
    svg = hops_chart(name="hops-chart", title="Hops by addition", additions=additions, cache=cache)
    return Picture(
        Markup(svg),
        "Bitterness is worked out; flavour and aroma are only said, since no equation has them.",
        "table-hops",
        "Bitterness by addition",
    )


def _balance(plan: Plan, cache: FrameCache) -> Picture:
    figures, style = plan.figures, plan.recipe.style
    svg = balance_chart(
        name="balance-chart",
        title="Bitterness against gravity",
        gravity=_ranged(figures.wort.original),
        bitterness=_ranged(figures.bitterness.total),
        style=ground(style) if style else None,
        cache=cache,
    )
    caption = "The arms reach as far as nine batches in ten do; the dots are the beers of this book."
    if style:
        caption += f" The shaded ground is where {style.name} usually lies."
    return Picture(Markup(svg), caption, "table-targets", "Targets", BALANCE)


def _colour(plan: Plan, _: FrameCache) -> Picture:
    srm, style = plan.figures.colour.srm.number, plan.recipe.style
    span: list[str] = []
    place = None
    if style:
        low, high = style.colour
        span = [rgb(low + (high - low) * patch / (_PATCHES - 1)) for patch in range(_PATCHES)]
        place = (srm - low) / (high - low) if high > low else None
    svg = colour_swatch(
        name="colour-chart",
        title="Colour in the glass",
        beer=rgb(srm),
        beer_label=f"{colour_word(srm)}, {amount_of(srm, 'SRM').metric}",
        depth_cm=GLASS_CM,
        style_span=span,
        style_label=style.name if style else "",
        beer_place=place,
    )
    caption = "As a screen can show it, in daylight, without haze or foam."
    return Picture(Markup(svg), caption, "table-targets", "Targets")


CHARTS: Mapping[str, Callable[[Plan, FrameCache], Picture | None]] = {
    "hops": _hops,
    "balance": _balance,
    "colour": _colour,
}


def balance_of(it: Known) -> tuple[float, float, float]:
    """The gravity of a beer as it is written, its bitterness (IBU), and its colour (SRM)."""
    figures = it.plan.figures
    return figures.wort.original.number, figures.bitterness.total.number, figures.colour.srm.number


def all_beers(them: Iterable[Known], cache: FrameCache) -> bytes:
    """The gravity and the bitterness of all beers, as a picture to lie under that of each."""
    beers = [it.ask(balance_of)[:2] for it in them]
    return f"{dots(title='The beers of the book', beers=beers, cache=cache)}\n".encode()


def _ranged(value: Value) -> tuple[float, float, float]:
    return value.number, value.low, value.high


def ground(style: Style) -> StyleBox:
    """The ground that a style covers on the chart of balance."""
    (og_low, og_high), (ibu_low, ibu_high) = style.original_gravity, style.bitterness
    return StyleBox(name=style.name, og_low=og_low, og_high=og_high, ibu_low=ibu_low, ibu_high=ibu_high)
