"""Lines of editions: `10 L`, `5 gal`, `extract 10 L`, `10 L in stove`, `grain`, and `no 5 gal` to drop one."""

from __future__ import annotations

import re
from collections.abc import Mapping

from gristbook.model.brewhouse import Brewhouse
from gristbook.model.edition import Edition, Source
from gristbook.problems import Problems, nearest
from gristbook.reading import fields as f
from gristbook.reading.fields import read_quantity
from gristbook.reading.tree import Node, Text
from gristbook.text.values import said

_LINE = re.compile(
    r"(?P<drop>no\s+)?(?:from\s+)?(?P<source>extract|grain)?\s*(?P<batch>[\d¼½¾.][^,]*?)?\s*"
    r"(?:(?:in|on|with)\s+(?:the\s+)?(?P<brewhouse>[^,]+))?"
)
_US = re.compile(r"(?<!imp )\b(?:gal|gallons?|qt|quarts?)\b")
EXAMPLE = "an edition, as 10 L, 5 gal, extract 10 L, 10 L in stove"


def read_editions(
    nodes: tuple[Node, ...], brewhouses: Mapping[str, Brewhouse], problems: Problems
) -> tuple[tuple[Edition, ...], tuple[str, ...]]:
    """Editions asked for, and the addresses of those that a line drops."""
    wanted: dict[str, Edition] = {}
    dropped: list[str] = []
    for node in nodes:
        if not isinstance(node, Text):
            problems.error(node.place, "an edition is a line", expected=EXAMPLE)
            continue
        match = _LINE.fullmatch(node.value)
        edition = _edition(node, match, brewhouses, problems) if match else None
        if match is None or (edition is None and not match["drop"]):
            if match is None:
                problems.error(node.place, f'"{node.value}" is not an edition', expected=EXAMPLE)
        elif match["drop"] and edition is not None:
            dropped.append(edition.slug)
        elif edition is not None and edition.slug in wanted:
            problems.error(node.place, f'"{node.value}" is asked for twice')
        elif edition is not None:
            wanted[edition.slug] = edition
    return tuple(wanted.values()), tuple(dropped)


def _edition(
    line: Text, match: re.Match[str], brewhouses: Mapping[str, Brewhouse], problems: Problems
) -> Edition | None:
    brewhouse = match["brewhouse"]
    if brewhouse and brewhouse not in brewhouses:
        problems.error(
            line.at(match.start("brewhouse")),
            f'unknown brewhouse "{brewhouse}"',
            within=line.value,
            expected="one of " + ", ".join(sorted(brewhouses)),
            suggestion=nearest(brewhouse, brewhouses),
        )
        return None
    batch = None
    if match["batch"]:
        batch = read_quantity(line.part(match.start("batch"), match.end("batch")), f.VOLUME, problems, line.value)
        if batch is None:
            return None
    if not (batch or brewhouse or match["source"]):
        problems.error(line.place, f'"{line.value}" is not an edition', expected=EXAMPLE)
        return None
    name = " ".join(line.value.removeprefix("no ").split())
    source: Source = "extract" if match["source"] == "extract" else "grain" if match["source"] else "as written"
    return Edition(
        name=name,
        slug=_slug(name),
        batch=said(batch, "batch", origin="the edition") if batch else None,
        brewhouse=brewhouse or None,
        source=source,
        us=bool(_US.search(line.value)),
        place=line.place,
    )


def _slug(name: str) -> str:
    """An address that lasts: the line's own words.

    >>> _slug("extract 10 L"), _slug("2.5 gal in the stove")
    ('extract-10-l', '2-5-gal-in-the-stove')
    """
    return re.sub(r"[^a-z0-9]+", "-", name.casefold()).strip("-")
