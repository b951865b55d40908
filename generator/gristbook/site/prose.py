"""An author's Markdown as HTML: no raw HTML, headings under the page's own, links that lead somewhere."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache
from itertools import pairwise, zip_longest
from urllib.parse import unquote, urlsplit

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup, escape

from gristbook.site.addresses import Anchors
from gristbook.site.learn.terms import Uses

Mend = Callable[[str], str | None]
"""What a link in an author's file becomes on the page; `None` where it leads nowhere."""

Show = Callable[[str, str], Mapping[str, str | int] | Markup | None]
"""From a picture's address and its words to the attributes of its tag, or to a drawing; `None` where there is none."""


@cache
def _reader() -> MarkdownIt:
    options = {"html": False, "typographer": True}
    return MarkdownIt("commonmark", options).enable(["table", "replacements", "smartquotes"])


def prose(
    text: str,
    *,
    under: int,
    anchors: Anchors,
    mend: Mend,
    lost: Callable[[str], None],
    show: Show | None = None,
    terms: Uses | None = None,
) -> Markup:
    """Markdown as HTML.

    Parameters
    ----------
    under : the level of the heading that the prose stands under; its own begin one below
    anchors : the names that the page has given away already
    mend : the page's way to what a link names
    lost : told of every link that leads nowhere; the words stay
    show : finds the pictures, and files its own problems; where there is none, the words stay
    terms : links the words of the glossary, outside of headings, links and code
    """
    tokens: Sequence[Token] = _reader().parse(text)
    _demote(tokens, under, anchors)
    tokens = list(_with_scrolling_tables(tokens))
    for before, token in pairwise((_markup(""), *tokens)):
        if token.children is not None:
            token.children = list(_mended(token.children, mend, lost, show or _no_picture))
            if terms is not None and before.type not in ("heading_open", "th_open"):
                token.children = list(_explained(token.children, terms))
    return Markup(_reader().renderer.render(tokens, _reader().options, {}))


def by_headings(told: Markup) -> Mapping[str, Markup]:
    """Prose in its parts, each by the anchor of its heading; what stands before the first is "".

    A heading within a quotation or a list begins no part.

    >>> by_headings(Markup('<p>A</p><h2 id="b">B</h2><p>C</p>')) == {"": "<p>A</p>", "b": '<h2 id="b">B</h2><p>C</p>'}
    True
    """
    found = {"": 0}
    for heading in re.finditer(r'<h2 id="([^"]*)"', told):
        before = told[: heading.start()]
        if all(before.count(f"<{it}>") == before.count(f"</{it}>") for it in ("blockquote", "li")):
            found[heading[1]] = heading.start()
    ends = (*list(found.values())[1:], len(told))
    return {name: Markup(told[at:end]) for (name, at), end in zip(found.items(), ends, strict=True) if end > at}


def headings(text: str, anchors: Anchors) -> Iterator[tuple[str, str]]:
    """The headings of Markdown, each with the anchor that `prose` gives it where the page has given away the same.

    >>> list(headings("# *Cool* it", Anchors()))
    [('cool-it', 'Cool it')]
    """
    tokens = _reader().parse(text)
    _demote(tokens, 1, anchors)
    for token, inline in pairwise(tokens):
        if token.type == "heading_open":
            yield str(token.attrs["id"]), _words(inline)


def spots(text: str, address: str) -> list[tuple[int, int]]:
    r"""The lines and columns, from 1, where Markdown names an address; its first where it is nowhere to be seen.

    >>> spots("So `[a](b.md)`,\n[see](b.md) and ![it](b.md#c).\n\n[d]: b.md", "b.md")
    [(2, 7), (4, 6)]
    """
    bare = re.sub(r"(`+|~~~+).+?\1", lambda code: re.sub(r"[^\n]", " ", code[0]), text, flags=re.DOTALL)
    written = "|".join(map(re.escape, (address, unquote(address))))
    found = re.finditer(rf"(?:\](?:\(|:)\s*<?|<)({written})(?=[\s)>]|$)", bare)
    starts = [it.start(1) for it in found]
    return [(bare.count("\n", 0, at) + 1, at - bare.rfind("\n", 0, at)) for at in starts] or [(1, 1)]


def line(text: str, terms: Uses | None = None) -> Markup:
    """One line of an author's words: emphasis and curly quotes, no links but to the glossary."""
    tokens = _reader().parseInline(text)
    for token in tokens:
        token.children = list(_mended(token.children or [], lambda _: None, lambda _: None, _no_picture))
        if terms is not None:
            token.children = list(_explained(token.children, terms))
    return Markup(_reader().renderer.render(tokens, _reader().options, {}))


def plain(text: str) -> str:
    """The same line as bare text, for a title or a description.

    >>> plain("The class's *house* bitter")
    'The class’s house bitter'
    """
    tokens = _reader().parseInline(text)
    words = "".join(child.content or " " * (child.type == "softbreak") for t in tokens for child in t.children or [])
    return words.replace("\f", " ")  # what `&#12;` becomes, and XML does not have


def _demote(tokens: Sequence[Token], under: int, anchors: Anchors) -> None:
    """Headings follow one another without a gap, the highest that the author used right under the page's own."""
    levels: list[int] = []
    for token, inline in zip_longest(tokens, tokens[1:]):
        if token.type == "heading_open":
            written = int(token.tag[1])
            while levels and levels[-1] >= written:
                levels.pop()
            levels.append(written)
            token.attrSet("id", anchors.take(_words(inline) if inline else ""))
        if token.type in ("heading_open", "heading_close"):
            token.tag = f"h{min(under + len(levels), 6)}"


def _with_scrolling_tables(tokens: Sequence[Token]) -> Iterator[Token]:
    """A table as wide as its author made it scrolls on its own, by keys too, so that the page does not.

    It is called by the heading that it stands under, the second there by its number too.
    """
    heading, count = "", 0
    for before, token in pairwise((_markup(""), *tokens)):
        if before.type == "heading_open":
            heading, count = _words(token), 0
        if token.type == "th_open":
            token.attrSet("scope", "col")
        if token.type == "table_open":
            count += 1
            name = f"Table{f' {count}' if count > 1 else ''}{f': {heading}' if heading else ''}"
            yield _markup(f'<div class="scroll" role="region" aria-label="{escape(name)}" tabindex="0">\n')
        yield token
        if token.type == "table_close":
            yield _markup("</div>\n")


def _words(inline: Token) -> str:
    return "".join(child.content for child in inline.children or [])


def _markup(html: str) -> Token:
    return Token("html_block", "", 0, content=html)


def _no_picture(address: str, words: str) -> None:
    return None


def _mended(children: Sequence[Token], mend: Mend, lost: Callable[[str], None], show: Show) -> Iterator[Token]:
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
            shown = show(str(token.attrGet("src") or ""), token.content)
            if isinstance(shown, Markup):
                yield Token("html_inline", "", 0, content=str(shown))  # what is added to it is safe already
            elif shown is None:
                yield Token("text", "", 0, content=token.content)
            else:
                token.attrs |= {**shown, "loading": "lazy", "decoding": "async"}
                yield token
        else:
            yield token


def _explained(children: Sequence[Token], terms: Uses) -> Iterator[Token]:
    """The tokens of one block, with the glossary's words in its text linked; a link's own text is left alone."""
    within = 0
    for token in children:
        within += {"link_open": 1, "link_close": -1}.get(token.type, 0)
        if token.type != "text" or within:
            yield token
            continue
        for piece in terms.pieces(token.content):
            if piece.href:
                yield Token("link_open", "a", 1, attrs={"class": "term", "href": piece.href})
            yield Token("text", "", 0, content=piece.words)
            if piece.href:
                yield Token("link_close", "a", -1)


def elsewhere(address: str) -> bool:
    """Whether a link leaves the site, or writes a letter.

    >>> elsewhere("https://example.org/"), elsewhere("mailto:maud@quillmere.example"), elsewhere("stout.md")
    (True, True, False)
    """
    try:
        parts = urlsplit(address)
    except ValueError:  # brackets that hold no address
        return False
    return bool(parts.scheme or parts.netloc) and re.fullmatch(r"https?|mailto|tel", parts.scheme) is not None
