"""Lines of editions: `10 L`, `5 gal`, `extract 10 L`, `10 L in stove`, `grain`, and `no 5 gal` to drop one."""

import re
import unicodedata
from collections.abc import Mapping

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.edition import Edition, Source
from gristbook.problems import Problems, nearest
from gristbook.reading import fields as f
from gristbook.reading.fields import read_quantity
from gristbook.reading.lines import readable
from gristbook.reading.names import short
from gristbook.reading.quantity import Unreadable
from gristbook.reading.tree import Node, Text
from gristbook.text.saying import IN_US
from gristbook.text.values import said

_LINE = re.compile(
    r"(?P<drop>no\s+)?(?:from\s+)?(?P<source>extract|grain)?\s*(?P<batch>[\d¼½¾.][^,]*?)?\s*"
    r"(?:(?:in|on|with)\s+(?:the\s+)?(?P<brewhouse>[^,]+?))?\s*",
    re.IGNORECASE,
)
EXAMPLE = "an edition, as 10 L, 5 gal, extract 10 L, 10 L in stove"


def read_editions(
    nodes: tuple[Node, ...], brewhouses: Mapping[str, Brewhouse], problems: Problems
) -> tuple[tuple[Edition, ...], tuple[Edition, ...]]:
    """Editions asked for, and those that a line drops."""
    wanted: dict[str, Edition] = {}
    dropped: list[Edition] = []
    for line, drops, edition in readable(nodes, lambda node: _edition(node, brewhouses, problems)):
        if drops:
            dropped.append(edition)
        elif edition.slug in wanted:
            problems.error(edition.place, f'"{line}" is asked for twice')
        else:
            wanted[edition.slug] = edition
    return tuple(wanted.values()), tuple(dropped)


def unknown_brewhouse(name: Text, known: Mapping[str, Brewhouse], problems: Problems, within: str = "") -> None:
    """File the error of a brewhouse that the book does not have."""
    what, expected = f'unknown brewhouse "{name.value}"', "one of " + ", ".join(sorted(known))
    problems.error(name.place, what, within=within, expected=expected, suggestion=nearest(name.value, known))


def warn_of_idle_drops(dropped: tuple[Edition, ...], book: tuple[Edition, ...], problems: Problems) -> None:
    """File a warning for each line that drops an edition which the book does not have."""
    known = {edition.slug: edition.name for edition in book}
    for edition in dropped:
        if edition.slug not in known:
            close = nearest(edition.name, known.values())
            problems.warning(
                edition.place,
                f'"no {edition.name}" drops nothing',
                expected="" if close else f"one of the book's editions: {', '.join(known.values()) or 'it has none'}",
                suggestion=f"no {close}" if close else "",
            )


def edition_address(line: Text, problems: Problems) -> str:
    """The address of an edition, even of one that the book has no longer; "" with a problem filed where it is none."""
    return next(
        (_slug(_shortest(match)) for match in readable([line], lambda it: _match(it, problems, drops=False))), ""
    )


def _match(line: Text, problems: Problems, *, drops: bool = True) -> re.Match[str]:
    """The line taken apart, which may drop an edition where ``drops`` says so."""
    match = _LINE.fullmatch(line.value)
    if match and (match["batch"] or match["brewhouse"] or match["source"]) and (drops or not match["drop"]):
        return match
    problems.error(line.place, f'"{line.value}" is not an edition', expected=EXAMPLE)
    raise Unreadable


def _edition(line: Node, brewhouses: Mapping[str, Brewhouse], problems: Problems) -> tuple[str, bool, Edition]:
    """The words of a line, whether it drops an edition, and which."""
    if not isinstance(line, Text):
        problems.error(line.place, "an edition is a line", expected=EXAMPLE)
        raise Unreadable
    match = _match(line, problems)
    brewhouse, batch = match["brewhouse"], None
    if brewhouse and brewhouse not in brewhouses:
        unknown_brewhouse(line.part(*match.span("brewhouse")), brewhouses, problems, line.value)
        raise Unreadable
    if match["batch"]:
        batch = read_quantity(line.part(*match.span("batch")), f.VOLUME, problems, line.value)
        if batch is None:
            raise Unreadable
    words = _shortest(match)
    source: Source = "as written"
    if match["source"]:
        source = "extract" if match["source"].casefold() == "extract" else "grain"
    edition = Edition(
        name=words,
        slug=_slug(words),
        batch=said(batch, "batch", origin="the edition") if batch else None,
        brewhouse=brewhouse or None,
        source=source,
        us=batch is not None and IN_US.search(batch.text) is not None,
        place=line.place,
    )
    return line.value, bool(match["drop"]), edition


def _shortest(match: re.Match[str]) -> str:
    """The line in its shortest form, the same however it was put."""
    batch = re.sub(r"(?<=[\d¼½¾.])\s*(?=[A-Za-z])", " ", match["batch"] or "")
    parts = ((match["source"] or "").casefold(), batch, f"in {match['brewhouse']}" if match["brewhouse"] else "")
    return " ".join(" ".join(parts).split())


def _slug(words: str) -> str:
    """An address that lasts: the line's own words.

    >>> _slug("extract 10 L"), _slug("2.5 gal in stove"), _slug("2½ gal in Küche")
    ('extract-10-l', '2-5-gal-in-stove', '2-1-2-gal-in-kuche')
    """
    apart = re.sub(r"(?<=\d)(?=[¼½¾])", " ", words.casefold())
    plain = "".join(c for c in unicodedata.normalize("NFKD", apart) if not unicodedata.combining(c))
    return short(re.sub(r"\W+", "-", plain).strip("-"))
