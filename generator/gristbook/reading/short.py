"""Names for files that no disk is too small for."""

from hashlib import sha256

LONGEST = 120
"""Bytes of a name: a file's may have 255, and endings are added to it."""


def short(name: str) -> str:
    """A name as it is, or so much of it as fits and a mark that no other name has.

    >>> short("stout"), len(short("stout " * 100))
    ('stout', 120)
    """
    if len(name.encode()) <= LONGEST:
        return name
    mark = f"-{sha256(name.encode()).hexdigest()[:8]}"
    return name.encode()[: LONGEST - len(mark)].decode(errors="ignore") + mark
