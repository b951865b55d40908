"""The glossary's words, found where prose first uses them on a page, and linked to what they mean."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from gristbook.model.learning import Term
from gristbook.site.addresses import Anchors, way
from gristbook.site.pages import GLOSSARY

_WORD = re.compile(r"\w+")


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a text, and where it leads if it is a term used for the first time."""

    words: str
    href: str = ""


class Glossary:
    """The terms, each with its anchor on the glossary's page, and what every page has linked of them so far."""

    def __init__(self, terms: Sequence[Term] = ()) -> None:
        self.terms, anchors = tuple(terms), Anchors("main")
        self.anchors: Mapping[str, str] = {term.term: anchors.take(term.term) for term in terms}
        self._forms: dict[str, list[tuple[str, str]]] = {}
        self._pages: dict[str, Uses] = {}
        forms = {_folded(form): self.anchors[term.term] for term in reversed(terms) for form in term.forms}
        for form in sorted(forms, key=len, reverse=True):  # the longest that fits is the one that is meant
            first = _WORD.search(form)
            if first and first.start() == 0:
                self._forms.setdefault(first[0], []).append((form, forms[form]))

    def on(self, page: str) -> Uses:
        """What a page uses of the terms, from its first paragraph to its last."""
        return self._pages.setdefault(page, Uses(self._forms, page, set()))

    def within(self, page: str, entry: str) -> Uses:
        """What one entry of the glossary uses of the terms besides itself."""
        return Uses(self._forms, page, {entry})


class Uses:
    """The terms on one page: each leads to the glossary once, where it stands first, and is ``seen`` from there on."""

    def __init__(self, forms: Mapping[str, Sequence[tuple[str, str]]], page: str, seen: set[str]) -> None:
        self._forms, self._page, self.seen = forms, page, seen

    def pieces(self, text: str) -> Iterator[Piece]:
        """A text, parted at the terms that it uses first on this page; whole words, capitals or not."""
        folded, start, read = _folded(text), 0, 0
        for word in _WORD.finditer(folded):
            form, anchor = self._longest(folded, word) if word.start() >= read else ("", "")
            if not form:
                continue
            read = word.start() + len(form)
            if anchor in self.seen:
                continue
            self.seen.add(anchor)
            if word.start() > start:
                yield Piece(text[start : word.start()])
            yield Piece(text[word.start() : read], way(self._page, f"{GLOSSARY}#{anchor}"))
            start = read
        if start < len(text):
            yield Piece(text[start:])

    def linked(self, text: str) -> Markup:
        """A text as HTML with its terms linked."""
        return Markup("").join(
            Markup('<a class="term" href="{}">{}</a>').format(piece.href, piece.words)
            if piece.href
            else escape(piece.words)
            for piece in self.pieces(text)
        )

    def _longest(self, folded: str, word: re.Match[str]) -> tuple[str, str]:
        """The longest form that begins with a word and ends with one."""
        for form, anchor in self._forms.get(word[0], ()):
            end = word.start() + len(form)
            if folded.startswith(form, word.start()) and not _WORD.match(folded, end):
                return form, anchor
        return "", ""


def _folded(text: str) -> str:
    """The text as it is compared, letter for letter as long as it was."""
    low = text.lower()
    if len(low) != len(text):  # a few letters have no small one of their own
        low = "".join(letter.lower() if len(letter.lower()) == 1 else letter for letter in text)
    return low.replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")
