"""What the page of a style is given: what it is, its spans, and every beer of the book that is of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.charts import FrameCache, Mark, StyleBox, style_chart
from gristbook.equations.spectrum import glass_srgb
from gristbook.model.figures import words_of
from gristbook.model.style import Style
from gristbook.site.addresses import Anchors, slug
from gristbook.site.amounts import Amount, from_to
from gristbook.site.band import rgb
from gristbook.site.brews import Beer
from gristbook.site.figures import Figure
from gristbook.site.index_page import Entry, entries
from gristbook.site.pages import STYLES, Link, style_path
from gristbook.site.prose import line, plain
from gristbook.site.terms import Uses
from gristbook.site.words import capital, style_spans, where_in
from gristbook.targets.figures import Plan

_MUG_CM = 8.0


@dataclass(frozen=True, slots=True)
class Compared:
    """A beer's figure and where it stands in the style, in a word."""

    figure: Figure
    where: str


@dataclass(frozen=True, slots=True)
class Span:
    """A figure of a style: low and high, and each beer's own."""

    label: str
    span: Amount
    beers: tuple[Compared, ...]


@dataclass(frozen=True, slots=True)
class StylePage:
    """A style with the beers that name it, and those that lie within all its spans though they name another or none."""

    name: str
    family: str
    family_path: str
    about: Markup
    source: str
    spans: tuple[Span, ...]
    beers: tuple[Link, ...]
    entries: tuple[Entry, ...]
    others: tuple[Entry, ...]
    chart: Markup


@dataclass(frozen=True, slots=True)
class StyleLine:
    """A style in the list of all: its colours from palest to darkest, and how many beers name it."""

    path: str
    name: str
    colours: tuple[str, ...]
    beers: tuple[Markup, ...]


@dataclass(frozen=True, slots=True)
class Family:
    """Styles that are kin."""

    anchor: str
    title: str
    styles: tuple[StyleLine, ...]


@dataclass(frozen=True, slots=True)
class StylesPage:
    """Every style that a beer of the book names, by family."""

    families: tuple[Family, ...]


def styles_of(beers: Sequence[Beer]) -> dict[str, Style]:
    """The styles that beers name, by the path of their pages; in the order of their families and names."""
    found = {style.name: style for beer in beers if (style := beer.home.plan.recipe.style)}
    names = Anchors("index")
    ordered = sorted(found.values(), key=lambda style: (style.family, style.name))
    return {style_path(names.take(style.name)): style for style in ordered}


def style_page(
    path: str, style: Style, beers: Sequence[Beer], cache: FrameCache, terms: Uses | None = None
) -> StylePage:
    """The page of a style."""
    named = [beer for beer in beers if _names(beer.home.plan, style)]
    others = [beer for beer in beers if beer not in named and _within(beer.home.plan, style)]
    shown = [(beer.home.plan, beer.home.shown(path)) for beer in named]
    spans = tuple(
        Span(
            capital(words_of(figure)),
            from_to(*span, shown[0][0].sheet[figure].unit),
            tuple(Compared(show(plan.sheet[figure]), where_in(plan.sheet[figure], span)) for plan, show in shown),
        )
        for figure, span in style_spans(style).items()
    )
    marks = [_mark(beer.home.plan) for beer in (*named, *others)]
    (og_low, og_high), (ibu_low, ibu_high) = style.original_gravity, style.bitterness
    box = StyleBox(name=style.name, og_low=og_low, og_high=og_high, ibu_low=ibu_low, ibu_high=ibu_high)
    title = f"Bitterness against gravity: {style.name}"
    return StylePage(
        style.name,
        style.family,
        f"{STYLES}#{slug(style.family)}",
        line(style.about, terms),
        style.source,
        spans,
        tuple(Link(beer.home.at.page, plain(beer.home.plan.recipe.title)) for beer in named),
        entries([beer.home.plan for beer in named], "beer"),
        entries([beer.home.plan for beer in others], "other"),
        Markup(style_chart(name="style-chart", title=title, style=box, beers=marks, cache=cache)),
    )


def styles_page(styles: Mapping[str, Style], beers: Sequence[Beer]) -> StylesPage:
    """The list of the styles that the book's beers name."""
    families: dict[str, list[StyleLine]] = {}
    for path, style in styles.items():
        titles = tuple(line(beer.home.plan.recipe.title) for beer in beers if _names(beer.home.plan, style))
        low, high = style.colour
        colours = tuple(rgb(low + (high - low) * step / 5, _MUG_CM) for step in range(6))
        families.setdefault(style.family, []).append(StyleLine(path, style.name, colours, titles))
    anchors = Anchors("main")
    return StylesPage(
        tuple(Family(anchors.take(family), capital(family), tuple(lines)) for family, lines in families.items())
    )


def _names(plan: Plan, style: Style) -> bool:
    return plan.recipe.style is not None and plan.recipe.style.name == style.name


def _within(plan: Plan, style: Style) -> bool:
    """Whether a beer lies within every span of a style."""
    return all(where_in(plan.sheet[figure], span) == "within" for figure, span in style_spans(style).items())


def _mark(plan: Plan) -> Mark:
    figures = plan.figures
    return Mark(
        name=plain(plan.recipe.title),
        gravity=figures.wort.original.number,
        bitterness=figures.bitterness.total.number,
        colour=glass_srgb(figures.colour.srm.number, _MUG_CM),
    )
