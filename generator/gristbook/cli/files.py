"""A new file, whole or not at all: an author's own is never written over."""

from pathlib import Path


def write_new(path: Path, text: str) -> None:
    """Write a file that is not there yet; a full disk, or whoever stops it, leaves no half of it.

    Raises
    ------
    FileExistsError
        There is one, which stays as it is.
    """
    with path.open("x", encoding="utf-8", newline="\n") as file:
        try:
            file.write(text)
            file.flush()
        except BaseException:
            path.unlink()
            raise
