"""Where drawn frames are kept between one chart and the next: in memory for a run, in a folder from run to run."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Protocol

ASKED = "GRISTBOOK_CACHE"
"""In the environment, the folder that is to be taken instead of the usual one."""


class FrameCache(Protocol):
    """Text kept under a key. What is kept may be lost at any time: it can be drawn again."""

    def get(self, key: str, /) -> str | None:
        """Give the text kept under this key, or None."""

    def __setitem__(self, key: str, text: str, /) -> None: ...


MemoryCache = dict[str, str]
"""A cache that lasts as long as the object."""


@dataclass(frozen=True, slots=True)
class FolderCache:
    """A cache of one file a key, safe to delete as a whole or in part. The folder is made when first written to.

    A disk that refuses costs time and nothing else: what cannot be read or kept is drawn again.
    """

    path: Path

    def get(self, key: str, /) -> str | None:
        """Give the text kept under this key, or None."""
        try:
            return (self.path / f"{key}.json").read_text(encoding="utf-8", errors="replace")
        except OSError:
            return None

    def __setitem__(self, key: str, text: str, /) -> None:
        draft = self.path / f"{key}.{os.getpid()}.draft"  # another process may be keeping the same
        with suppress(OSError):
            self.path.mkdir(parents=True, exist_ok=True)
            draft.write_text(text, encoding="utf-8", newline="\n")
            os.replace(draft, self.path / f"{key}.json")


@contextmanager
def fresh() -> Iterator[None]:
    """For as long as it is held, this process and those that it begins find nothing kept, and leave nothing."""
    asked = os.environ.get(ASKED)
    with TemporaryDirectory() as nothing:
        os.environ[ASKED] = nothing
        try:
            yield
        finally:
            os.environ.pop(ASKED)
            if asked is not None:
                os.environ[ASKED] = asked


def users_cache() -> Path | None:
    """Where whoever runs this keeps what can be made again, and nobody else writes; `None` where they have no home.

    `GRISTBOOK_CACHE` names another folder. Otherwise it is where the system has it: the XDG Base Directory
    Specification's place, which takes an absolute path only, or the one that Apple or Microsoft give for it.
    """
    asked, own = os.environ.get(ASKED), os.environ.get("XDG_CACHE_HOME", "")
    if asked:
        return Path(asked)
    try:
        home = Path.home()
    except RuntimeError:
        return None
    if os.path.isabs(own):
        return Path(own) / "gristbook"
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or home / "AppData" / "Local") / "gristbook" / "cache"
    return home / ("Library/Caches" if sys.platform == "darwin" else ".cache") / "gristbook"


def frames() -> FrameCache:
    """Where whoever runs this keeps frames, or else where they last as long as what asks for them."""
    kept = users_cache()
    return FolderCache(kept / "charts") if kept else MemoryCache()
