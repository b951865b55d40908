"""What a build rests on, as one number: everything in a book's folder, and everything that makes a site of it.

Contents count and times do not, so that a fresh checkout is what it was; nothing heavy is loaded for it.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator
from hashlib import sha256
from pathlib import Path

from gristbook.reading.files import themes
from gristbook.site.disk.owned import LIST

LEFT_OUT = frozenset({".git", "__pycache__"})
"""Folders that no page is made from."""


def digest_of(folder: Path) -> str:
    """What a folder holds, its own sites and its history left out."""
    return digest_in(digests(folder))


def digest_in(files: Iterable[tuple[str, bytes]]) -> str:
    """The same of its files, as `digests` gives them."""
    whole = sha256()
    for path, held in files:
        whole.update(os.fsencode(path) + b"\0")
        whole.update(held)
    return whole.hexdigest()


def digests(folder: Path) -> Iterator[tuple[str, bytes]]:
    """Each of the files that `digest_of` counts, by its path in the folder, and what it holds."""
    for path in _files(str(folder)):
        try:
            held = sha256(Path(path).read_bytes()).digest()
        except OSError as fault:
            held = str(fault.errno).encode()
        yield os.path.relpath(path, folder), held


def digest_of_ours() -> str:
    """What makes a site: this package and its themes, Python, and the libraries beside them."""
    home = Path(__file__).parents[2]
    found = [sys.version, digest_of(home), digest_of(themes())]
    for folder in dict.fromkeys(filter(os.path.isdir, sys.path)):
        found += sorted(name for name in os.listdir(folder) if name.endswith((".dist-info", ".egg-info")))
    return sha256("\n".join(found).encode()).hexdigest()


def _files(folder: str) -> Iterator[str]:
    """Every regular file below a folder, in an order that is always the same; none of one that cannot be read."""
    try:
        with os.scandir(folder) as entries:
            here = sorted(entries, key=lambda entry: entry.name)
    except OSError:
        return
    if any(entry.name == LIST for entry in here):
        return
    for entry in here:
        if entry.is_dir(follow_symlinks=False):
            if entry.name not in LEFT_OUT:
                yield from _files(entry.path)
        elif entry.is_file():
            yield entry.path
