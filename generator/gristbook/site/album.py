"""The pictures that a book's pages show: found, measured, and kept to be copied beside them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from posixpath import dirname, join, normpath, splitext
from urllib.parse import unquote
from warnings import catch_warnings

from gristbook.problems import Place, Problems
from gristbook.reading.files import inside
from gristbook.site.addresses import way
from gristbook.site.prose import Show, elsewhere

KINDS = {".jpg": "JPEG", ".jpeg": "JPEG", ".png": "PNG", ".webp": "WEBP"}
"""What every browser shows, and what holds no scripts, by the end of the file's name."""

HEAVIEST = 300_000
"""Bytes of a picture that a phone on a farm still loads in a few seconds."""

LARGEST, DOTS = 50_000_000, 80_000_000
"""Bytes of a picture that is read at all, and dots that one may have: beyond these, phones give up."""

HOMES = ("pages/", "theme/")
"""Folders of the book that the site does not have: what lies in them stands at its root."""

_POSITION = 0x8825
"""Where a camera writes down the place (Exif 2.32, GPSInfo)."""


@dataclass(frozen=True, slots=True)
class _Found:
    """A picture as it lies on the disk."""

    data: bytes
    width: int
    height: int


class Album:
    """Collects the pictures of a site; ``put`` takes each once, by its path there."""

    def __init__(self, put: Callable[[str, bytes, Place], None], problems: Problems) -> None:
        self._put, self._problems = put, problems
        self._measured: dict[Path, _Found | None] = {}

    def of_page(self, here: str, source: str, root: Path | None, at: Callable[[str], Place]) -> Show:
        """What shows the pictures of the file ``source``, which lies under ``root``, on the page ``here``.

        ``at`` says where in the file an address stands. A picture is looked for in the folder with the file's own name,
        then beside the file.
        """

        def show(address: str, words: str) -> Mapping[str, str | int] | None:
            place = at(address)
            path = self._path(address, source, root, place)
            if path is None or root is None:
                return None
            if not words.strip():
                what = "a picture without words for those who cannot see it"
                self._problems.error(place, what, within=address, expected=f"![what it shows]({address})")
            found = self._measure(root / path, path, place)
            if found is None:
                return None
            there = next((path.removeprefix(home) for home in HOMES if path.startswith(home)), path)
            self._put(there, found.data, place)
            return {"src": way(here, there), "width": found.width, "height": found.height}

        return show

    def _path(self, address: str, source: str, root: Path | None, place: Place) -> str | None:
        """The picture's file as the author would type it."""
        if elsewhere(address) or address.startswith(("/", "data:")):
            what = "a picture from elsewhere: a book shows only its own"
            self._problems.error(place, what, within=address, expected="a file of this book")
            return None
        near = [join(splitext(source)[0], unquote(address)), join(dirname(source), unquote(address))]
        near = [path for path in map(normpath, near) if not path.startswith(("..", "/"))]
        there = [path for path in near if root is not None and _is_file(root, path)]
        if not there:
            expected = " or ".join(near) or "a file of this book"
            self._problems.error(place, "a picture that is not there", within=address, expected=expected)
            return None
        if splitext(there[0])[1].lower() not in KINDS:
            expected = ", ".join(sorted(KINDS))
            self._problems.error(place, "a picture of a kind that is not shown", within=address, expected=expected)
            return None
        return there[0]

    def _measure(self, file: Path, path: str, place: Place) -> _Found | None:
        """Width and height as the picture is seen, read once."""
        if file not in self._measured:
            self._measured[file] = self._read(file, path)
        if self._measured[file] is None:
            expected = f"one in the format of a {splitext(path)[1]} file, of at most {DOTS // 10**6} million dots"
            self._problems.error(place, "this picture cannot be read", within=path, expected=expected)
        return self._measured[file]

    def _read(self, file: Path, path: str) -> _Found | None:
        """The picture, if it is one; what is odd about it is worth a word."""
        from PIL import ExifTags, Image  # only a book with pictures waits for it

        try:
            data = file.read_bytes() if file.stat().st_size <= LARGEST else b""
            kinds = [KINDS[file.suffix.lower()]]
            with catch_warnings(action="ignore"), Image.open(BytesIO(data), formats=kinds) as picture:
                width, height = picture.size
                told = picture.getexif()
                on_its_side = told.get(ExifTags.Base.Orientation, 1) in range(5, 9)
                position = told.get_ifd(_POSITION)
        except Exception:  # whatever a library says to bytes that are no picture, or that claim to be a vast one
            return None
        if width * height > DOTS:
            return None
        if on_its_side:  # as the camera was
            width, height = height, width
        if position:
            what = "this picture says where it was taken, to everybody who downloads it"
            self._problems.warning(Place(path), what, expected="a copy without its position")
        if len(data) > HEAVIEST:
            what = f"this picture is heavy for a phone: {len(data) // 1000} kB"
            self._problems.warning(Place(path), what, expected=f"at most {HEAVIEST // 1000} kB")
        return _Found(data, width, height)


def _is_file(root: Path, path: str) -> bool:
    """Whether it is a file of the book; what a link leads to outside is none."""
    try:
        return inside(root, path).is_file()
    except OSError:
        return False
