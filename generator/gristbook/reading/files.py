"""Files: the text of an author's, and where lies what ships with the package."""

from __future__ import annotations

from pathlib import Path

import gristbook
from gristbook.problems import Place, Problems


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
        return (folder / name).read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        problems.error(place, f"no {name} here", expected=expected)
    except UnicodeDecodeError:
        problems.error(place, "this file is not text", expected="plain UTF-8")
    except OSError as fault:
        problems.error(place, f"this file cannot be read: {fault.strerror}")
    return None
