"""The texts of a book as git keeps them at a revision; the author's folder and git's index are only read."""

import os
import subprocess
from contextlib import suppress
from pathlib import Path, PurePosixPath

from gristbook.reading.files import inside

DEEPEST = 3
"""Folders and file that lead to the deepest text of a book: a batch of a recipe on a shelf."""

STEERED_BY = ("GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE")
"""What a hook of git's sets for the repository that it runs in, which need not be the book's."""


class NoRevision(Exception):
    """Why there are no texts to be had, in a line."""


def texts_at(folder: Path, revision: str) -> tuple[dict[str, bytes], str]:
    """Every file that a book's folder held at a revision, by its path there, and the revision's day.

    Links and other repositories within it are left out.

    Raises
    ------
    NoRevision
        There is no git, no repository, no such revision, or no such folder in it.
    """
    _git(folder, "rev-parse", "--git-dir", refused=f"{folder} lies in no git repository")
    named = ("--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}")
    commit = _git(folder, "rev-parse", *named, refused=f'git knows no revision "{revision}" here').decode().strip()
    day = _git(folder, "log", "-1", "--no-show-signature", "--format=%cs", commit, "--").decode().strip()
    entries = _git(folder, "ls-tree", "-r", "-z", commit).decode("utf-8", "surrogateescape").split("\0")
    heads = [(head.split(), path) for head, _, path in (entry.partition("\t") for entry in entries if entry)]
    files = {path: sha for (mode, _, sha), path in heads if mode.startswith("100") and _is_text(path)}
    if "book.yaml" not in files:
        raise NoRevision(f"{folder} held no book at {revision}")
    found = _git(folder, "cat-file", "--batch", put_in="".join(f"{sha}\n" for sha in files.values()).encode())
    texts, at = {}, 0
    for path in files:
        begins = found.index(b"\n", at) + 1
        ends = begins + int(found[at:begins].split()[-1])
        texts[path], at = found[begins:ends], ends + 1
    return texts, day


def texts_in(folder: Path) -> dict[str, bytes]:
    """The same of a folder as it stands; what cannot be read is left to the reader of books, who tells of it."""
    found = {}
    for path in (path for pattern in ("*", "*/*", "*/*/*") for path in folder.glob(pattern)):
        name = path.relative_to(folder).as_posix()
        if _is_text(name) and path.is_file():
            with suppress(OSError):
                found[name] = inside(folder, name).read_bytes()
    return found


def _is_text(name: str) -> bool:
    """Whether a file may be a recipe, a batch, its log, or a setting: no picture, no theme, nothing hidden."""
    path = PurePosixPath(name)
    hidden = any(part.startswith(".") for part in path.parts)
    kept = path.suffix in (".md", ".yaml", ".csv", ".tsv", ".txt") and path.parts[0] not in ("pages", "theme")
    return kept and not hidden and len(path.parts) <= DEEPEST


def _git(folder: Path, *words: str, put_in: bytes = b"", refused: str = "") -> bytes:
    """What git prints; `NoRevision` with what was ``refused``, or else with what git says of it."""
    kept = {name: value for name, value in os.environ.items() if name not in STEERED_BY}
    known = {**kept, "LC_ALL": "C"}
    try:
        ran = subprocess.run(["git", "-C", str(folder), *words], input=put_in, capture_output=True, env=known)
    except FileNotFoundError as missing:
        raise NoRevision("older texts are asked of git, and git is not installed") from missing
    if ran.returncode:
        said = ran.stderr.decode("utf-8", "replace").strip().removeprefix("fatal: ").partition("\n")[0]
        own = not said or said.startswith(("not a git repository", "Needed a single revision"))
        raise NoRevision(refused if own and refused else f"git: {said or 'it refuses'}")
    return ran.stdout
