"""From bytes to a folder: only what changed is written, only what is ours is touched, and a crash can be mended.

The list of our files is first widened to what will be there, then the files are put in place one by one, then the list
is written as it is: whenever the work is cut off, each file is old or new, and the next run knows all of them for ours.
"""

from __future__ import annotations

import os
from collections.abc import Collection, Mapping
from contextlib import suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from tempfile import mkstemp

from gristbook.site.disk.owned import DRAFTS, LIST, NotOurs, check_path, hash_of, read_list, written_list


@dataclass(frozen=True, slots=True)
class Written:
    """What a run did to the folder; ``left`` are the paths at which somebody else's file was found and stays."""

    new: int
    changed: int
    same: int
    removed: int
    left: tuple[str, ...] = ()


def write(files: Mapping[str, bytes], out: Path, standing: Collection[str] = ()) -> Written:
    """Make the folder hold these files, by path with forward slashes, and none that an earlier run left there.

    Those ``standing`` are known to be there as an earlier run wrote them, and stay.

    A file that holds anything but what we wrote or are about to write is not ours: it stays as it is.

    Raises
    ------
    NotOurs
        The folder holds files and no list of ours, or a link that leads elsewhere.
    ValueError
        A path that would leave the folder.
    OSError
        The disk refuses.
    """
    ours = read_list(out)
    stood = {path: ours[path][0] if len(ours.get(path, ())) == 1 else hash_of(out, path) or "" for path in standing}
    wanted = stood | {path: sha256(data).hexdigest() for path, data in files.items()}
    for path in files:
        check_path(path)
    _refuse_links(out, {*ours, *wanted} - stood.keys())
    there = stood | {path: hash_of(out, path) for path in {*ours, *wanted} - stood.keys()}
    left = {path for path, found in there.items() if found not in (None, wanted.get(path), *ours.get(path, ()))}
    listed = {path: digest for path, digest in wanted.items() if path not in left}
    stale = sorted(path for path in ours if path not in wanted and path not in left)
    fresh = sorted(path for path in listed if there[path] != wanted[path])
    try:
        _clear(out)
        if fresh or stale:
            before = {path: there[path] or digests[0] for path, digests in ours.items() if path not in left}
            _replace(out, LIST, written_list(before, listed))
        for path in fresh:
            _replace(out, path, files[path])
        for path in stale:
            _remove(out, path)
        whole = written_list(listed)
        if hash_of(out, LIST) != sha256(whole).hexdigest():
            _replace(out, LIST, whole)
    finally:
        _clear(out)
    new = sum(there[path] is None for path in fresh)
    gone = sum(there[path] is not None for path in stale)
    return Written(new, len(fresh) - new, len(listed) - len(fresh), gone, tuple(sorted(left)))


def earlier(out: Path, paths: Collection[str]) -> dict[str, bytes]:
    """What stands in a folder besides ``paths`` as we wrote it; nothing where no site of ours is.

    Raises
    ------
    NotOurs, OSError
        As `write` does.
    """
    ours = read_list(out)
    _refuse_links(out, ours.keys() - set(paths))
    return {
        path: (out / path).read_bytes()
        for path, digests in sorted(ours.items())
        if path not in paths and hash_of(out, path) in digests
    }


def _refuse_links(out: Path, paths: Collection[str]) -> None:
    home = os.path.realpath(out)
    for path in sorted(paths):
        if os.path.realpath(out / path) != os.path.join(home, *path.split("/")):
            raise NotOurs(f"{out / path} leads elsewhere by a link, which we never make")


def _replace(out: Path, path: str, data: bytes) -> None:
    """All of the new file or all of the old one, never half of either."""
    (out / DRAFTS).mkdir(parents=True, exist_ok=True)
    opened, draft = mkstemp(dir=out / DRAFTS)
    with open(opened, "wb") as file:
        file.write(data)
    os.chmod(draft, 0o644)
    (out / path).parent.mkdir(parents=True, exist_ok=True)
    os.replace(draft, out / path)


def _clear(out: Path) -> None:
    """Remove what was not put in its place, by this run or by one that was cut off."""
    with suppress(FileNotFoundError, NotADirectoryError):
        for draft in (out / DRAFTS).iterdir():
            draft.unlink()
        (out / DRAFTS).rmdir()


def _remove(out: Path, path: str) -> None:
    (out / path).unlink(missing_ok=True)
    for folder in (out / path).parents:
        if folder == out or (folder.exists() and any(folder.iterdir())):
            return
        if folder.exists():
            folder.rmdir()
