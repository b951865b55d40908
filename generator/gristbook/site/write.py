"""From bytes to a folder: only what changed is written, only what is ours is removed, and a crash can be mended.

The folder holds one list of our own files and their hashes, `.gristbook`: the proof of ownership. It is first widened
to what will be there, then the files are put in place one by one, then it is written as it is: whenever the work is
cut off, each file is old or new, and the next run finds all of them in the list.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path, PurePosixPath
from tempfile import NamedTemporaryFile

MANIFEST = ".gristbook"
_HEADING = "The files of this folder that gristbook wrote, with their SHA-256. It removes these and no others.\n"


class NotOurs(OSError):
    """A folder or a file stands where the site should go, and it was not written by us."""


@dataclass(frozen=True, slots=True)
class Written:
    """What a run did to the folder."""

    new: int
    changed: int
    same: int
    removed: int


def write(files: Mapping[str, bytes], out: Path) -> Written:
    """Make the folder hold these files, by path with forward slashes, and none that an earlier run left there.

    Raises
    ------
    NotOurs
        The folder holds files and no list of ours, or somebody else's file stands in the way.
    ValueError
        A path that would leave the folder.
    OSError
        The disk refuses.
    """
    wanted = {path: sha256(data).hexdigest() for path, data in sorted(files.items())}
    for path in wanted:
        _inside(path)
    ours = _read_manifest(out)
    there = {path: _hash_of(out / path) for path in {*ours, *wanted}}
    _refuse_strangers(out, ours, wanted, there)
    stale = sorted(path for path in ours if path not in wanted)
    fresh = [path for path in wanted if there[path] != wanted[path]]
    if fresh or stale:
        out.mkdir(parents=True, exist_ok=True)
        _replace(out / MANIFEST, _manifest({**ours, **wanted}))
    for path in fresh:
        _replace(out / path, files[path])
    for path in stale:
        _remove(out, path)
    _replace_if_changed(out / MANIFEST, _manifest(wanted))
    new = sum(there[path] is None for path in fresh)
    return Written(new, len(fresh) - new, len(wanted) - len(fresh), sum(there[path] is not None for path in stale))


def _inside(path: str) -> None:
    parts = PurePosixPath(path).parts
    if not path or path.startswith("/") or "\\" in path or ".." in parts or str(PurePosixPath(path)) != path:
        raise ValueError(f'"{path}" is no path inside the site')
    if path == MANIFEST:
        raise ValueError(f'"{path}" is the name of our own list')


def _read_manifest(out: Path) -> dict[str, str]:
    try:
        lines = (out / MANIFEST).read_text(encoding="utf-8").splitlines()[1:]
    except (FileNotFoundError, NotADirectoryError):
        if out.exists() and (not out.is_dir() or any(out.iterdir())):
            raise NotOurs(f"{out} holds something else and no list of ours; choose an empty or a new folder") from None
        return {}
    listed = [line.partition("  ") for line in lines if line]
    try:
        for _, _, path in listed:
            _inside(path)
    except ValueError as fault:
        raise NotOurs(f"{out / MANIFEST} is damaged: {fault}") from fault
    return {path: digest for digest, _, path in listed}


def _manifest(hashes: Mapping[str, str]) -> bytes:
    return (_HEADING + "".join(f"{digest}  {path}\n" for path, digest in sorted(hashes.items()))).encode()


def _hash_of(path: Path) -> str | None:
    try:
        return sha256(path.read_bytes()).hexdigest()
    except (FileNotFoundError, NotADirectoryError):
        return None
    except IsADirectoryError as fault:
        raise NotOurs(f"{path} is a folder, where a page should go") from fault


def _refuse_strangers(
    out: Path, ours: Mapping[str, str], wanted: Mapping[str, str], there: Mapping[str, str | None]
) -> None:
    home = out.resolve()
    for path in sorted({*ours, *wanted}):
        if home not in (out / path).resolve().parents:
            raise NotOurs(f"{out / path} leads out of the folder")
        if path not in ours and there[path] not in (None, wanted[path]):
            raise NotOurs(f"{out / path} was not written by us, and a page should go there")


def _replace(path: Path, data: bytes) -> None:
    """All of the new file or all of the old one, never half of either."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with NamedTemporaryFile(dir=path.parent, prefix=".gristbook-", delete=False) as draft:
        draft.write(data)
    try:
        os.chmod(draft.name, 0o644)
        os.replace(draft.name, path)
    except BaseException:
        os.unlink(draft.name)
        raise


def _replace_if_changed(path: Path, data: bytes) -> None:
    if not path.exists() or path.read_bytes() != data:
        _replace(path, data)


def _remove(out: Path, path: str) -> None:
    (out / path).unlink(missing_ok=True)
    for folder in (out / path).parents:
        if folder == out or (folder.exists() and any(folder.iterdir())):
            return
        if folder.exists():
            folder.rmdir()
