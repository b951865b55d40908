"""The list of the files in a folder that we wrote, with what they held: the only proof that one of them is ours.

While a build is at work the list also says what is underway, so that a file is known for ours on both sides of the
moment at which it is put in place.
"""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterable, Mapping
from hashlib import sha256
from pathlib import Path, PurePosixPath

from gristbook.model.paths import BOOK_FOLDERS
from gristbook.reading.files import Outside, inside

LIST, DRAFTS = ".gristbook", ".gristbook-drafts"
"""The list, and the folder of files that are not yet in their place; every build clears it."""

ABOUT = "The files of this folder that gristbook wrote, with their SHA-256. It changes and removes these and no others."

_HASH = re.compile(r"[0-9a-f]{64}")
_LINE = re.compile(rf"({_HASH.pattern})  (.+)")
"""A line of the list as it was written at first: a heading, then a hash, two blanks and a path on each."""


class NotOurs(OSError):
    """A folder or a file stands where the site should go, and it was not written by us."""


def written_list(files: Mapping[str, str], underway: Mapping[str, str] | None = None) -> bytes:
    """The list of our files by path, each with its hash."""
    whole = {"about": ABOUT, "files": dict(sorted(files.items()))}
    whole |= {"underway": dict(sorted(underway.items()))} if underway else {}
    return (json.dumps(whole, ensure_ascii=False, indent=1) + "\n").encode()


def read_list(out: Path) -> dict[str, tuple[str, ...]]:
    """Our files in a folder by path, each with the hashes of what we may have written there.

    Raises
    ------
    NotOurs
        The folder holds something and no list of ours, or the list is damaged.
    """
    path = out / LIST
    if path.is_symlink() or (out / DRAFTS).is_symlink():
        raise NotOurs(f"{path} or {out / DRAFTS} leads elsewhere, which we never make")
    try:
        text = path.read_text(encoding="utf-8")
    except (FileNotFoundError, NotADirectoryError):
        if out.exists() and (not out.is_dir() or any(it.name != DRAFTS for it in out.iterdir())):
            raise NotOurs(f"{out} holds something else and no list of ours; choose an empty or a new folder") from None
        return {}
    except UnicodeDecodeError as fault:
        raise NotOurs(f"{path} is damaged: it is no text") from fault
    try:
        found = _entries(text)
        for name in found:
            check_path(name)
    except (ValueError, RecursionError) as fault:
        raise NotOurs(f"{path} is damaged: {fault}; nothing here can be told for ours, so choose another") from fault
    return found


def _entries(text: str) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    if text.startswith("{"):
        whole = json.loads(text)
        tables = [whole.get("files"), whole.get("underway", {})]
    else:
        lines = [_LINE.fullmatch(line) for line in text.splitlines()[1:]]
        tables = [{line[2]: line[1] for line in lines if line} if all(lines) else None]
    for table in tables:
        if not isinstance(table, dict) or not all(isinstance(it, str) and _HASH.fullmatch(it) for it in table.values()):
            raise ValueError("it is no list of files and their hashes")
        for name, digest in table.items():
            found[name] = (*found.get(name, ()), digest)
    return found


def apart(out: Path, book: Path, texts: Iterable[str]) -> None:
    """Raise `NotOurs` where a site would lie around its book, among the folders that the book is read from, or by a
    link of the book's somewhere else. ``texts`` are the book's own, by path: a recipe has a folder of its name.
    """
    if _within(book, out):
        raise NotOurs(f"{out} holds the book itself; choose a folder that holds nothing else")
    for name in sorted(BOOK_FOLDERS | {text.partition("/")[0].removesuffix(".md") for text in texts}):
        if _within(out, book / name) or _within(book / name, out):
            raise NotOurs(f"{out} is where the book has its own {name}; choose a folder that holds nothing else")
    here, there = (Path(os.path.abspath(path)) for path in (book, out))
    try:
        if there.is_relative_to(here):
            inside(book, there)
    except Outside as fault:
        raise NotOurs(f"{out} leads out of the book by a link; name the folder that it leads to") from fault


def _within(path: Path, folder: Path) -> bool:
    """Whether it is a folder or lies in it, also where the disk does not tell capitals apart."""
    home, there = (Path(os.path.realpath(it)) for it in (folder, path))
    around = (there, *there.parents)
    return home in around or (home.exists() and any(it.exists() and it.samefile(home) for it in around))


def check_path(path: str) -> None:
    """Raise `ValueError` where a path would leave the folder, or is one of our own."""
    parts = PurePosixPath(path).parts
    if not path or path.startswith("/") or "\\" in path or ".." in parts or str(PurePosixPath(path)) != path:
        raise ValueError(f'"{path}" is no path inside the site')
    if parts[0] in (LIST, DRAFTS):
        raise ValueError(f'"{path}" is the name of our own list')


def hash_of(out: Path, path: str) -> str | None:
    """What a file of the folder holds; `None` where there is none, "" where a folder stands in its way."""
    try:
        return sha256((out / path).read_bytes()).hexdigest()
    except FileNotFoundError:
        return None
    except (IsADirectoryError, NotADirectoryError):
        return ""
