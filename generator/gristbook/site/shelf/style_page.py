"""What the page of a style is given: what it is, its spans, and every beer of the book that is of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from gristbook.charts.caches import FrameCache
from gristbook.charts.style_balance import Mark, style_chart
from gristbook.model.figures import words_of
from gristbook.model.style import Style
from gristbook.problems import Place
from gristbook.site.addresses import Anchors, slug
from gristbook.site.amounts import Amount, from_to
from gristbook.site.band import rgb
from gristbook.site.beer.brews import Beer
from gristbook.site.beer.pictures import ground
from gristbook.site.book.index_page import Entry, entries
from gristbook.site.figures import Figure
from gristbook.site.pages import STYLES, Group, Link, Page, style_path
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.site.words import capital, style_spans, where_in
from gristbook.targets.figures import Plan


@dataclass(frozen=True, slots=True)
class Span:
    """A figure of a style: low and high, and each beer's own with a word that says where it stands."""

    label: str
    span: Amount
    beers: tuple[tuple[Figure, str], ...]


@dataclass(frozen=True, slots=True)
class StylePage:
    """A style with the beers that name it, and those that lie within all its spans though they name another or none."""

    style: Style
    family_path: str
    about: Markup
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
class StylesPage:
    """The styles that the book's beers name, by family."""

    families: tuple[Group[StyleLine], ...]


def styles_of(beers: Iterable[Beer]) -> dict[str, Style]:
    """The styles that beers name, by the path of their pages; in the order of their families and names."""
    found = {style.name: style for beer in beers if (style := beer.home.plan.recipe.style)}
    names = Anchors("index")
    ordered = sorted(found.values(), key=lambda style: (style.family, style.name))
    return {style_path(names.take(style.name)): style for style in ordered}


def style_pages(printing: Printing) -> Iterator[Page]:
    """The page of every style."""
    for path, style in printing.styles.items():
        words = f"{style.name}, of the family {style.family}: what is usual, and the beers of this book."
        view = _page(path, style, printing)
        yield printing.page(path, "style.html", f"{style.name} – Styles", capital(words), view, place=Place("pantry"))


def _page(path: str, style: Style, printing: Printing) -> StylePage:
    beers = printing.beers.values()
    named = [beer for beer in beers if _names(beer.home.plan, style)]
    others = [beer for beer in beers if not _names(beer.home.plan, style) and _within(beer.home.plan, style)]
    shown = [(beer.home.shown(path), beer.home.plan.sheet) for beer in named]
    spans = tuple(
        Span(
            capital(words_of(figure)),
            from_to(*span, shown[0][1][figure].unit),
            tuple((show(sheet[figure]), where_in(sheet[figure], span)) for show, sheet in shown),
        )
        for figure, span in style_spans(style).items()
    )
    return StylePage(
        style,
        f"{STYLES}#{slug(style.family)}",
        line(style.about, printing.written.desk.glossary.on(path)),
        spans,
        tuple(Link(beer.home.at.page, plain(beer.home.plan.recipe.title)) for beer in named),
        entries(beer.home.plan for beer in named),
        entries(beer.home.plan for beer in others),
        _chart(style, [*named, *others], printing.frames),
    )


def _chart(style: Style, beers: Iterable[Beer], frames: FrameCache) -> Markup:
    marks = [
        Mark(
            name=plain(plan.recipe.title),
            gravity=plan.figures.wort.original.number,
            bitterness=plan.figures.bitterness.total.number,
            colour=rgb(plan.figures.colour.srm.number),
        )
        for plan in (beer.home.plan for beer in beers)
    ]
    title = f"Bitterness against gravity: {style.name}"
    return Markup(style_chart(name="style-chart", title=title, style=ground(style), beers=marks, cache=frames))


def families(printing: Printing) -> tuple[Group[StyleLine], ...]:
    """The styles that the book's beers name, by family."""
    found: dict[str, list[StyleLine]] = {}
    plans = [beer.home.plan for beer in printing.beers.values()]
    for path, style in printing.styles.items():
        titles = tuple(line(plan.recipe.title) for plan in plans if _names(plan, style))
        low, high = style.colour
        colours = tuple(rgb(low + (high - low) * step / 5) for step in range(6))
        found.setdefault(style.family, []).append(StyleLine(path, style.name, colours, titles))
    anchors = Anchors("main")
    return tuple(Group(anchors.take(family), capital(family), tuple(lines)) for family, lines in found.items())


def _names(plan: Plan, style: Style) -> bool:
    return plan.recipe.style is not None and plan.recipe.style.name == style.name


def _within(plan: Plan, style: Style) -> bool:
    """Whether a beer lies within every span of a style."""
    named = plan.named
    return all(where_in(named[name], span) == "within" for name, span in style_spans(style).items())
