"""An author's Markdown as HTML: no raw HTML, headings under the page's own, links that lead somewhere."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from itertools import zip_longest
from urllib.parse import urlsplit

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup

from gristbook.site.addresses import Anchors

Mend = Callable[[str], str | None]
"""What a link in an author's file becomes on the page; `None` where it leads nowhere."""


@cache
def _reader() -> MarkdownIt:
    options = {"html": False, "typographer": True}
    return MarkdownIt("commonmark", options).enable(["table", "replacements", "smartquotes"])


def prose(text: str, *, under: int, anchors: Anchors, mend: Mend, lost: Callable[[str], None]) -> Markup:
    """Markdown as HTML.

    Parameters
    ----------
    under : the level of the heading that the prose stands under; its own begin one below
    anchors : the names that the page has given away already
    mend : the page's way to what a link names
    lost : told of every link and picture that leads nowhere; the words stay
    """
    tokens: Sequence[Token] = _reader().parse(text)
    _demote(tokens, under, anchors)
    tokens = list(_with_scrolling_tables(tokens))
    for token in tokens:
        if token.children is not None:
            token.children = list(_mended(token.children, mend, lost))
    return Markup(_reader().renderer.render(tokens, _reader().options, {}))


def line(text: str) -> Markup:
    """One line of an author's words: emphasis and curly quotes, no links."""
    tokens = _reader().parseInline(text)
    for token in tokens:
        token.children = list(_mended(token.children or [], lambda _: None, lambda _: None))
    return Markup(_reader().renderer.render(tokens, _reader().options, {}))


def plain(text: str) -> str:
    """The same line as bare text, for a title or a description.

    >>> plain("The class's *house* bitter")
    'The class’s house bitter'
    """
    tokens = _reader().parseInline(text)
    return "".join(child.content or " " * (child.type == "softbreak") for t in tokens for child in t.children or [])


def _demote(tokens: Sequence[Token], under: int, anchors: Anchors) -> None:
    """Headings follow one another without a gap, the highest that the author used right under the page's own."""
    levels: list[int] = []
    for token, inline in zip_longest(tokens, tokens[1:]):
        if token.type == "heading_open":
            written = int(token.tag[1])
            while levels and levels[-1] >= written:
                levels.pop()
            levels.append(written)
            words = "".join(child.content for child in (inline.children if inline else None) or [])
            token.attrSet("id", anchors.take(words))
        if token.type in ("heading_open", "heading_close"):
            token.tag = f"h{min(under + len(levels), 6)}"


def _with_scrolling_tables(tokens: Sequence[Token]) -> Iterator[Token]:
    """A table as wide as its author made it scrolls on its own, by keys too, so that the page does not."""
    for token in tokens:
        if token.type == "th_open":
            token.attrSet("scope", "col")
        if token.type == "table_open":
            yield _markup('<div class="scroll" role="region" aria-label="Table" tabindex="0">\n')
        yield token
        if token.type == "table_close":
            yield _markup("</div>\n")


def _markup(html: str) -> Token:
    return Token("html_block", "", 0, content=html)


def _mended(children: Sequence[Token], mend: Mend, lost: Callable[[str], None]) -> Iterator[Token]:
    """The tokens of one block, each link mended or, with its words kept, left out."""
    kept: list[bool] = []
    for token in children:
        if token.type == "link_open":
            address = str(token.attrGet("href") or "")
            mended = mend(address)
            if mended is None:
                lost(address)
            else:
                token.attrSet("href", mended)
            kept.append(mended is not None)
            if mended is not None:
                yield token
        elif token.type == "link_close":
            if kept.pop():
                yield token
        elif token.type == "image":
            lost(str(token.attrGet("src") or ""))
            yield Token("text", "", 0, content=token.content)
        else:
            yield token


def elsewhere(address: str) -> bool:
    """Whether a link leaves the site, or writes a letter.

    >>> elsewhere("https://example.org/"), elsewhere("mailto:maud@quillmere.example"), elsewhere("stout.md")
    (True, True, False)
    """
    parts = urlsplit(address)
    return bool(parts.scheme or parts.netloc) and re.fullmatch(r"https?|mailto|tel", parts.scheme) is not None
