"""Patterns of what an author may write, each taken apart once."""

import re
from functools import cache


def fits(pattern: str, words: str) -> re.Match[str] | None:
    """The whole of some words by a pattern: capitals or small, and for a blank of the pattern any number of them."""
    return _compiled(pattern).fullmatch(words)


@cache
def _compiled(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern.replace(" ", r"\s+"), re.IGNORECASE)
