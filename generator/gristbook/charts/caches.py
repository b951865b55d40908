"""Where drawn frames are kept between one chart and the next: in memory for a run, in a folder from run to run."""

import os
import tempfile
from dataclasses import dataclass, field
from pathlib import Path
from typing import Protocol


class FrameCache(Protocol):
    """Text kept under a key. What is kept may be lost at any time: it can be drawn again."""

    def get(self, key: str) -> str | None:
        """Give the text kept under this key, or None."""

    def put(self, key: str, text: str) -> None:
        """Keep the text under this key."""


@dataclass(frozen=True, slots=True)
class MemoryCache:
    """A cache that lasts as long as the object."""

    kept: dict[str, str] = field(default_factory=dict)

    def get(self, key: str) -> str | None:
        """Give the text kept under this key, or None."""
        return self.kept.get(key)

    def put(self, key: str, text: str) -> None:
        """Keep the text under this key."""
        self.kept[key] = text


@dataclass(frozen=True, slots=True)
class FolderCache:
    """A cache of one file a key, safe to delete as a whole or in part. The folder is made when first written to.

    Raises `OSError` from `put` if the folder cannot be written, and from `get` if a file is there but cannot be read.
    """

    path: Path

    def get(self, key: str) -> str | None:
        """Give the text kept under this key, or None."""
        try:
            return (self.path / f"{key}.json").read_text(encoding="utf-8", errors="replace")
        except FileNotFoundError:
            return None

    def put(self, key: str, text: str) -> None:
        """Keep the text under this key, whole or not at all: a build that is stopped half-way leaves no half file."""
        self.path.mkdir(parents=True, exist_ok=True)
        opened, half = tempfile.mkstemp(dir=self.path, prefix=f".{key}-")
        try:
            with open(opened, "w", encoding="utf-8", newline="\n") as file:
                file.write(text)
            os.replace(half, self.path / f"{key}.json")
        except BaseException:
            os.unlink(half)
            raise
