"""The words that say where wort was measured, taken off what was read: "27 L hot at 1.036, before the boil"."""

from __future__ import annotations

import re

from gristbook.model.batch import WortStep

_WHERE = re.compile(
    r"\s*,?\s*(?:in the kettle\b\s*,?\s*)?(?:at\s+)?(?:the\s+)?"
    r"(?P<step>(?P<start>before the boil)|in(?:to)? the (?P<fermenter>fermenter)|end of the boil|in the kettle)\s*",
    re.IGNORECASE,
)


def taken_at(words: str) -> tuple[str, WortStep | None]:
    """The reading without the words that say where it was taken, and where that is, if they do.

    >>> taken_at("27 L hot at 1.036, before the boil"), taken_at("23 L at 1.041")
    (('27 L hot at 1.036', 'before the boil'), ('23 L at 1.041', None))
    """
    match = _WHERE.search(words)
    if match is None:
        return words.strip(), None
    rest = f"{words[: match.start()]}, {words[match.end() :].lstrip(', ')}".strip(", ")
    if match["start"]:
        return rest, "before the boil"
    return rest, "in the fermenter" if match["fermenter"] else "end of the boil"
