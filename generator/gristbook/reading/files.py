"""Files: the text of an author's, and where lies what ships with the package."""

import errno
import os
from pathlib import Path

import gristbook
from gristbook.problems import Place, Problems


class Outside(OSError):
    """A path leads out of the folder that it has to stay in, by its dots, by a link, or by where it begins."""


def inside(folder: Path, path: str | Path) -> Path:
    """Where ``path`` lies in a folder, links followed: every file of a book is opened by what this gives.

    Raises
    ------
    Outside
        It leads out of the folder.
    """
    try:
        home, there = os.path.realpath(folder), os.path.realpath(folder / path)
    except ValueError:  # a path with a null in it
        there = home = ""
    if not home or not Path(there).is_relative_to(home):
        raise Outside(errno.EACCES, "it leads out of the folder", str(path))
    return folder / path


def themes() -> Path:
    """Where our own templates and texts lie: in the package once it is installed, beside the source in a checkout."""
    home = Path(gristbook.__file__).parent
    packed = home / "themes"
    return packed if packed.is_dir() else home.parents[1] / "themes"


def read_text(folder: Path, name: str, problems: Problems, *, expected: str = "", shown: str = "") -> str | None:
    """The text of the file ``name`` in a folder; `None` with a problem filed where it is missing or no text.

    ``expected`` says what the file begins with, for an author who has none yet; ``shown`` the file as he types it.
    """
    place = Place(shown or name)
    try:
        return inside(folder, name).read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        problems.error(place, f"no {name} here", expected=expected)
    except UnicodeDecodeError:
        problems.error(place, "this file is not text", expected="plain UTF-8")
    except OSError as fault:
        problems.error(place, f"this file cannot be read: {fault.strerror}")
    return None
