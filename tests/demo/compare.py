"""Hold one built book to another: pages and data byte for byte, charts as pictures.

    python tests/demo/compare.py site_demo SITE

Another matplotlib may move a label by a fraction of a pixel, and nothing else may move at all. So the charts are cut
out of the pages first; what is left has to be the same bytes. The charts are then compared element by element: same
elements, same text, same attributes, coordinates within one pixel of the chart's own 640. The list of the site's own
files is held to names, and its hashes to the files beside it.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Iterator
from hashlib import sha256
from itertools import zip_longest
from pathlib import Path
from xml.etree import ElementTree

PIXEL = 1.0
OWN_LIST = ".gristbook"
CHART = re.compile(rb'<svg\b[^>]*\bclass="chart\b[^>]*>.*?</svg>', re.DOTALL)
NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?")
COORDINATES = frozenset(
    "cx cy d dx dy height points r rx ry textLength transform viewBox width x x1 x2 y y1 y2".split()  # noqa: SIM905
)
"""Attributes that hold lengths; every other attribute, colours among them, is the same or not."""


def differences(old: Path, new: Path) -> Iterator[str]:
    """What sets the second site apart from the first, one line each; nothing if they are the same."""
    there, here = _files(old), _files(new)
    yield from (f"{name}: is missing" for name in sorted(there - here))
    yield from (f"{name}: is new" for name in sorted(here - there))
    for name in sorted(there & here):
        if name == OWN_LIST:
            yield from (f"{name}: {fault}" for site in (old, new) for fault in _faults_of_list(site))
        else:
            before, after = (old / name).read_bytes(), (new / name).read_bytes()
            yield from (f"{name}: {difference}" for difference in _of_files(before, after))


def _files(site: Path) -> set[str]:
    return {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}


def _faults_of_list(site: Path) -> Iterator[str]:
    """The list names every file but itself, with the hash that it has."""
    listed = json.loads((site / OWN_LIST).read_text(encoding="utf-8"))["files"]
    hashes = {name: sha256((site / name).read_bytes()).hexdigest() for name in _files(site) - {OWN_LIST}}
    if listed != hashes:
        wrong = sorted(name for name in {*listed, *hashes} if listed.get(name) != hashes.get(name))
        yield f"does not tell what {site} holds: {', '.join(wrong)}"


def _of_files(before: bytes, after: bytes) -> Iterator[str]:
    if before == after:
        return
    if CHART.sub(b"(chart)", before) != CHART.sub(b"(chart)", after):
        yield f"differs in line {_first_line(CHART.sub(b'(chart)', before), CHART.sub(b'(chart)', after))}"
        return
    for place, (one, other) in enumerate(zip(CHART.findall(before), CHART.findall(after), strict=True), 1):
        for difference in _of_elements(ElementTree.fromstring(one), ElementTree.fromstring(other)):
            yield f"chart {place}: {difference}"


def _first_line(before: bytes, after: bytes) -> int:
    pairs = zip_longest(before.split(b"\n"), after.split(b"\n"))
    return next(number for number, (one, other) in enumerate(pairs, 1) if one != other)


def _of_elements(one: ElementTree.Element, other: ElementTree.Element) -> Iterator[str]:
    name = one.tag.rpartition("}")[2]
    if (one.tag, one.text or "", one.tail or "") != (other.tag, other.text or "", other.tail or ""):
        yield f'<{name}> "{one.text or ""}" became <{other.tag.rpartition("}")[2]}> "{other.text or ""}"'
    if set(one.keys()) != set(other.keys()):
        yield f"<{name}> has other attributes: {', '.join(sorted(set(one.keys()) ^ set(other.keys())))}"
    for key in sorted(set(one.keys()) & set(other.keys())):
        if not _same(key, one.get(key, ""), other.get(key, "")):
            yield f'<{name}> {key}="{one.get(key)}" became "{other.get(key)}"'
    if len(one) != len(other):
        yield f"<{name}> holds {len(one)} elements and now {len(other)}"
    for child, twin in zip(one, other):  # noqa: B905  (their number has been compared)
        yield from _of_elements(child, twin)


def _same(key: str, one: str, other: str) -> bool:
    if one == other or key not in COORDINATES:
        return one == other
    numbers, others = [float(n) for n in NUMBER.findall(one)], [float(n) for n in NUMBER.findall(other)]
    return NUMBER.sub("#", one) == NUMBER.sub("#", other) and all(
        abs(a - b) <= PIXEL for a, b in zip(numbers, others, strict=True)
    )


def main(old: str, new: str) -> int:
    """Print every difference; the status says whether there was one."""
    found = list(differences(Path(old), Path(new)))
    print("\n".join(found) if found else f"{new} is the book that {old} is: {len(_files(Path(new)))} files")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
