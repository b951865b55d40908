"""Patterns of what an author may write, each taken apart once."""

import re
from functools import cache


def fits(pattern: str, words: str) -> re.Match[str] | None:
    """The whole of some words by a pattern: capitals or small, for a blank any number of them, and @ for its "at "."""
    return compiled(pattern).fullmatch(words)


@cache
def compiled(pattern: str, before: str = "") -> re.Pattern[str]:
    """A pattern of what may be written; what it fits stands ``before`` something, another pattern."""
    spelled = re.sub(r"\bat ", r"(?:at |@(?: )?)", pattern).replace(" ", r"\s+")
    return re.compile(f"(?:{spelled}){before}", re.IGNORECASE)
