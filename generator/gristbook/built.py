"""What a build came to, and what the last one into a folder rested on, so that the same site need not be made again.

The memory lies in the user's cache and may be lost at any time. It holds no page: it says of each file of ours how
large it was and when it was written, and a site with a file that is no longer so is made anew.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import asdict, dataclass, replace
from hashlib import sha256
from pathlib import Path
from typing import Any

from gristbook.charts.caches import users_cache
from gristbook.problems import Place, Problem, Severity
from gristbook.site.disk.sources import digest_of, digest_of_ours

OF_ONE_BEER = (".md", ".csv", ".tsv", ".txt")
"""Recipes, batches and logs, whose errors are nobody else's; all other files are the whole book's."""


@dataclass(frozen=True, slots=True)
class Site:
    """What became of a site's files; ``texts`` are those whose pages of an earlier build stay, since they have errors.

    ``left`` are files in the way that somebody else wrote, which were not touched.
    """

    beers: int
    new: int
    changed: int
    same: int
    removed: int
    stays: int
    texts: tuple[str, ...]
    left: tuple[str, ...]


def built_before(folder: Path, out: Path, *, strict: bool, pdf: bool) -> tuple[Site, tuple[Problem, ...]] | None:
    """What a build would come to, and the problems it would tell, where the last one made this very site.

    `None` where a build is needed. Nothing of the book is read for it, and nothing heavy is loaded.
    """
    try:
        told = json.loads(last_built(out, ".json").read_text(encoding="utf-8"))
        asked = _rests_on(digest_of(folder), strict=strict, pdf=pdf)
        if told["rests on"] != asked or told["files"] != _stamps(out, told["files"]):
            return None
        site = Site(**{**told["site"], "texts": tuple(told["site"]["texts"]), "left": ()})
        return site, tuple(map(_problem, told["problems"]))
    except (OSError, ValueError, TypeError, KeyError):
        return None


def remember(
    site: Site, digest: str, out: Path, files: Iterable[str], problems: Iterable[Problem], *, strict: bool, pdf: bool
) -> None:
    """Keep what `built_before` gives back, of a book that had this ``digest`` when it was read.

    A disk that refuses costs the next build its time and nothing else.
    """
    as_they_were = replace(site, new=0, changed=0, same=site.new + site.changed + site.same, removed=0)
    with suppress(OSError):
        told = {
            "rests on": _rests_on(digest, strict=strict, pdf=pdf),
            "files": _stamps(out, files),
            "problems": [{**asdict(it), "severity": it.severity.value} for it in problems],
            "site": asdict(as_they_were),
        }
        keep(json.dumps(told).encode(), last_built(out, ".json"))


@dataclass(frozen=True, slots=True)
class Checked:
    """What a check found: how many beers can be brewed, what is assumed of vessels, and every problem."""

    beers: int
    assumed: tuple[str, ...]
    problems: tuple[Problem, ...]


def checked_before(folder: Path) -> Checked | None:
    """What a check of a book would find, where the last one found it in this very book; `None` where one is needed."""
    try:
        told = json.loads(last_built(folder, ".checked").read_text(encoding="utf-8"))
        if told["rests on"] != [digest_of(folder), digest_of_ours()]:
            return None
        return Checked(told["beers"], tuple(told["assumed"]), tuple(map(_problem, told["problems"])))
    except (OSError, ValueError, TypeError, KeyError):
        return None


def remember_check(found: Checked, folder: Path, digest: str) -> None:
    """Keep what `checked_before` gives back, of a book that had this ``digest`` before it was read."""
    told = {"rests on": [digest, digest_of_ours()], "beers": found.beers, "assumed": found.assumed}
    with suppress(OSError):
        problems = [{**asdict(it), "severity": it.severity.value} for it in found.problems]
        keep(json.dumps({**told, "problems": problems}).encode(), last_built(folder, ".checked"))


def keep(data: bytes, path: Path) -> None:
    """Write a file of the cache, whole or not at all; `OSError` where the disk refuses."""
    draft = path.with_suffix(f".{os.getpid()}.draft")
    path.parent.mkdir(parents=True, exist_ok=True)
    draft.write_bytes(data)
    os.replace(draft, path)


def last_built(folder: Path, ending: str) -> Path:
    """Where what the last build into a folder, or the last check of it, came to is kept; `OSError` where nothing is."""
    kept = users_cache()
    if kept is None:
        raise OSError
    return kept / "builds" / f"{sha256(os.fsencode(os.path.realpath(folder))).hexdigest()}{ending}"


def _rests_on(digest: str, *, strict: bool, pdf: bool) -> list[object]:
    """Everything that decides what a build writes and says."""
    return [digest, digest_of_ours(), strict, pdf]


def _stamps(out: Path, files: Iterable[str]) -> dict[str, list[int]]:
    """How large each file is and when it was written; `OSError` where one is not there."""
    found = {path: os.lstat(os.path.join(out, path)) for path in files}
    return {path: [it.st_size, it.st_mtime_ns, it.st_ino] for path, it in found.items()}


def _problem(told: dict[str, Any]) -> Problem:
    return Problem(**{**told, "place": Place(**told["place"]), "severity": Severity(told["severity"])})
