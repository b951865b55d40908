"""What the page of a style is given: what it is, its spans, and every beer of the book that is of it."""

from __future__ import annotations

from collections.abc import Iterable
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
from gristbook.site.beer.known import Known
from gristbook.site.beer.pictures import balance_of, ground
from gristbook.site.book.index_page import Entry, entries
from gristbook.site.figures import Figure
from gristbook.site.pages import STYLES, Group, Link, Page, of_recipe, style_path
from gristbook.site.printing import Printing
from gristbook.site.prose import line, plain
from gristbook.site.words import capital, style_spans, where_in


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


def styles_of(beers: Iterable[Known]) -> dict[str, Style]:
    """The styles that beers name, by the path of their pages; in the order of their families and names."""
    found = {style.name: style for beer in beers if (style := beer.style)}
    names = Anchors("index")
    ordered = sorted(found.values(), key=lambda style: (style.family, style.name))
    return {style_path(names.take(style.name)): style for style in ordered}


def style_page(printing: Printing, path: str) -> Page:
    """The page of a style, which stands at ``path``."""
    style = printing.styles[path]
    words = f"{style.name}, of the family {style.family}: what is usual, and the beers of this book."
    view = _page(path, style, printing)
    return printing.page(path, "style.html", f"{style.name} – Styles", capital(words), view, place=Place("pantry"))


def _page(path: str, style: Style, printing: Printing) -> StylePage:
    beers = printing.beers.values()
    named = [beer for beer in beers if _names(beer, style)]
    others = [beer for beer in beers if not _names(beer, style) and beer.ask(lies_within, style)]
    told = [beer.ask(told_of_spans, style, path) for beer in named]
    spans = tuple(
        Span(capital(words_of(figure)), from_to(*span, told[0][figure][0].value.unit), tuple(it[figure] for it in told))
        for figure, span in style_spans(style).items()
    )
    return StylePage(
        style,
        f"{STYLES}#{slug(style.family)}",
        line(style.about, printing.written.desk.glossary.on(path)),
        spans,
        tuple(Link(of_recipe(beer.slug).page, plain(beer.title)) for beer in named),
        entries(named),
        entries(others),
        _chart(style, [*named, *others], printing.frames),
    )


def told_of_spans(it: Known, style: Style, here: str) -> dict[str, tuple[Figure, str]]:
    """Each figure that a style has a span of, as the page ``here`` shows it, and where it stands in that."""
    show, sheet = it.beer.home.shown(here), it.plan.sheet
    return {figure: (show(sheet[figure]), where_in(sheet[figure], span)) for figure, span in style_spans(style).items()}


def _chart(style: Style, beers: Iterable[Known], frames: FrameCache) -> Markup:
    marks = [
        Mark(name=plain(beer.title), gravity=gravity, bitterness=bitterness, colour=rgb(srm))
        for beer in beers
        for gravity, bitterness, srm in [beer.ask(balance_of)]
    ]
    title = f"Bitterness against gravity: {style.name}"
    return Markup(style_chart(name="style-chart", title=title, style=ground(style), beers=marks, cache=frames))


def families(printing: Printing) -> tuple[Group[StyleLine], ...]:
    """The styles that the book's beers name, by family."""
    found: dict[str, list[StyleLine]] = {}
    beers = printing.beers.values()
    for path, style in printing.styles.items():
        titles = tuple(line(beer.title) for beer in beers if _names(beer, style))
        low, high = style.colour
        colours = tuple(rgb(low + (high - low) * step / 5) for step in range(6))
        found.setdefault(style.family, []).append(StyleLine(path, style.name, colours, titles))
    anchors = Anchors("main")
    return tuple(Group(anchors.take(family), capital(family), tuple(lines)) for family, lines in found.items())


def _names(beer: Known, style: Style) -> bool:
    named = beer.style
    return named is not None and named.name == style.name


def lies_within(it: Known, style: Style) -> bool:
    """Whether a beer lies within every span of a style."""
    named = it.plan.named
    return all(where_in(named[name], span) == "within" for name, span in style_spans(style).items())
