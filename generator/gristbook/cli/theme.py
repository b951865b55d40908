"""`gristbook theme`: lay one of our templates or learning pages into a book, or say what a template is given."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from textwrap import fill

from gristbook.cli import Told, WrongCall
from gristbook.cli.files import write_new
from gristbook.cli.options import book_of

EXAMPLE = "gristbook theme variables card.html"

COPY, VARIABLES = "copy", "variables"
STYLE, EXTRA = "style.css", "theme/extra.css"


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook theme`."""
    parser.add_argument(
        "what",
        choices=(COPY, VARIABLES),
        help="copy one of our files into the book's theme/, where it is taken instead of ours and may be changed; "
        "or list what a template may ask for",
    )
    parser.add_argument(
        "name",
        nargs="?",
        metavar="TEMPLATE",
        help="as recipe.html, style.css or learning/balance.md; of variables also the name of a type, as Figure "
        "(left out: all that there are)",
    )
    parser.add_argument("--book", type=Path, metavar="BOOK", help="the book's folder (the one that this folder is in)")


def run(options: argparse.Namespace) -> None:
    """Copy a file, or print what is asked for; nothing is written over."""
    if options.what == VARIABLES:
        print("\n".join(_variables(options.name) if options.name else _pages()))
    elif options.name:
        _copy(options.name, options.book)
    else:
        print("\n".join(_ours()))


def _ours() -> dict[str, Path]:
    """All that a book's theme may lay its own over, by its name there."""
    from gristbook.reading.files import themes

    home = themes()
    return {it.relative_to(home).as_posix(): it for it in sorted(home.rglob("*")) if it.is_file()}


def _copy(name: str, book: Path | None) -> None:
    ours = _ours()
    if name not in ours:
        raise _unknown(name, ours)
    folder = book or book_of(Path("theme"))
    if not (folder / "book.yaml").is_file():
        print(f"gristbook: {folder} has no book.yaml: nothing was written", file=sys.stderr)
        raise Told
    path = folder / "theme" / name
    made = [it for it in reversed(path.parents) if not it.exists()]
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        write_new(path, ours[name].read_text("utf-8"))
    except BaseException as fault:
        for it in reversed(made):
            it.rmdir()
        if isinstance(fault, FileExistsError):
            print(f"gristbook: {path} is there already: nothing was written", file=sys.stderr)
            raise Told from fault
        raise
    print(path)


def _unknown(name: str, known: Iterable[str]) -> WrongCall:
    from gristbook.problems import nearest

    near = nearest(name, known)
    meant = f'; did you mean "{near}"?' if near else ""
    print(f'gristbook: nothing of ours is called "{name}"{meant}', file=sys.stderr)
    return WrongCall()


def _pages() -> Iterator[str]:
    """Every page's template and what it shows, and what all of them are given."""
    from gristbook.site.pages import Page, Site
    from gristbook.site.render import FILTERS
    from gristbook.site.variables import VIEWS, about

    width = max(map(len, VIEWS))
    for template, view in VIEWS.items():
        yield f"{template:{width}}  {about(view).split('. ')[0].split('; ')[0].partition(': ')[0].rstrip('.')}"
    yield "\nEvery template is given its view, as view.title, and"
    yield from _told("page", Page)
    yield from _told("site", Site)
    yield "\nshow.figure(it) prints a Figure, show.amount(it) an Amount, show.say(it) a Sentence of words and figures;"
    yield fill(f"to(PATH) is the way to a page. Filters besides the language's own: {', '.join(FILTERS)}.", 110)


def _variables(name: str) -> Iterator[str]:
    """What a template may ask for, what a type holds, or which properties the style sheet goes by."""
    from gristbook.site.variables import VIEWS, pages_with, properties, types

    if name in VIEWS:
        yield from _told("view", VIEWS[name], name)
    elif name.endswith(".html") and name in _ours():
        pages = ", ".join(pages_with(name)) or "those that call it by its name"
        yield f"{name} is part of pages, and has the view of whichever it stands in: {pages}"
    elif name == STYLE:
        yield f"{STYLE}: what a {EXTRA} may set, as :root {{ --accent: #2f6f4e; }}"
        yield from (f"  {name:10}  {words}" for name, words in properties(_ours()[STYLE].read_text("utf-8")))
    elif name in types():
        for one in types()[name]:
            yield from _told("", one)
    else:
        raise _unknown(name, (*VIEWS, *types(), *_ours()))


def _told(whose: str, of: type, template: str = "") -> Iterator[str]:
    """A type and all that may be asked of it."""
    from gristbook.site.variables import about, variables

    rows = [(f"{whose}.{it.name}".lstrip("."), it.type, it.words) for it in variables(of)]
    yield f"\n{template or whose or of.__name__}: {of.__name__}".removeprefix("\n" if template else "")
    yield fill(about(of), 110, initial_indent="  ", subsequent_indent="  ")
    width = max((len(name) for name, _, _ in rows), default=0)
    for name, kind, words in rows:
        yield f"  {name:{width}}  {kind}{f': {words}' if words else ''}"
