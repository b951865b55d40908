"""Names of files that an author's text has, and that become names of pages: what every disk can keep, and apart."""

import re
import unicodedata
from collections.abc import Collection, Iterable, Iterator
from functools import cache
from hashlib import sha256
from pathlib import Path, PurePosixPath

from gristbook.problems import Place, Problems

LONGEST = 200
"""Bytes of a name: common disks keep 255, and some of them spend up to a fifth on a code of their own."""

SHORT = 120
"""Bytes of a name that we make: endings are added to it."""

DATED = re.compile(r"(?P<day>\d{4}-\d{2}-\d{2})(?:-.+)?")
"""The name of a batch's file: its day, and whatever parts two brews of a day."""

_JOINERS = "\N{ZERO WIDTH NON-JOINER}\N{ZERO WIDTH JOINER}"
"""They steer nothing, and some scripts need them inside a word."""


def one_form(name: str) -> str:
    """A name as it is written in the site: the same on disks that take an accented letter apart."""
    return unicodedata.normalize("NFC", name)


def alike(name: str) -> str:
    """What is the same for two names that some disk would take for one.

    >>> alike("Kölsch.md") == alike("ko\u0308lsch.md")
    True
    """
    return one_form(one_form(name).casefold())


def shown(name: str) -> str:
    """A name as a problem prints it: what would steer the reader's terminal is spelled out."""
    return "".join(letter if letter.isprintable() else ascii(letter)[1:-1] for letter in name)


@cache
def unfit(name: str) -> str:
    """Why a file of the site cannot be called so, "" where it can.

    >>> unfit("a\\nb.html"), unfit("best bitter.html")
    ('it holds a character that cannot be seen', '')
    """
    hidden = [it for it in name if unicodedata.category(it) in ("Cc", "Cf", "Cs", "Zl", "Zp") and it not in _JOINERS]
    if hidden:
        return "it holds a character that cannot be seen"
    if "\\" in name or "/" in name:
        return "it holds a slash"
    if not name or name != name.strip(". \N{NO-BREAK SPACE}"):
        return "it begins or ends with a dot or a blank"
    if len(name.encode()) > LONGEST:
        return f"it is longer than {LONGEST} bytes"
    return ""


def short(name: str) -> str:
    """A name as it is, or so much of it as fits and a mark that no other name has.

    >>> short("stout"), len(short("stout " * 100))
    ('stout', 120)
    """
    if len(name.encode()) <= SHORT:
        return name
    mark = f"-{sha256(name.encode()).hexdigest()[:8]}"
    return name.encode()[: SHORT - len(mark)].decode(errors="ignore") + mark


def pages_in(folder: Path, within: str, problems: Problems, taken: Collection[str] = ()) -> Iterator[tuple[str, str]]:
    """The texts of one folder of a book that may become pages: path in the book, and the name that the page gets.

    Hidden files are passed over, as an editor's own are. A name that cannot be a page's is a problem of its file, and
    so is one of ``taken``, or one that a disk which looks at no capitals would take for another file's.
    """
    paths = [path.name for path in sorted((folder / within).glob("*.md")) if not path.name.startswith(".")]
    yield from fit_for_pages((f"{within}/{name}" if within else name for name in paths), problems, taken)


def fit_for_pages(paths: Iterable[str], problems: Problems, taken: Collection[str] = ()) -> Iterator[tuple[str, str]]:
    """Of texts of a book, by their paths there, those that may become pages, each with the name that its page gets."""
    seen: dict[str, str] = {}
    for path in map(PurePosixPath, paths):
        name = one_form(path.stem)
        why = unfit(name) or unfit(f"{name}.html")
        if not why and alike(name) in taken:
            why = "the site or the book has one of its own that is called so"
        if not why and alike(name) in seen:
            why = f"on many disks it is the same as {shown(seen[alike(name)])}"
        seen.setdefault(alike(name), str(path))
        if why:
            problems.error(
                Place(shown(str(path))), f'no page can be called "{shown(path.stem)}": {why}', expected="another name"
            )
        else:
            yield str(path), name
