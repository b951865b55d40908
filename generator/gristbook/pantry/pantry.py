"""The pantry: our reference data, an author's own laid over it, and one question for each shelf."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from gristbook.pantry.lookup import Shelf
from gristbook.pantry.names import VOCABULARIES
from gristbook.pantry.reading import read_section
from gristbook.pantry.records import (
    Acid,
    Allergen,
    Extract,
    Fining,
    Fruit,
    Hop,
    Malt,
    R,
    Salt,
    Style,
    Sugar,
    Water,
    Yeast,
)
from gristbook.pantry.section import Section
from gristbook.problems import Place, Problems
from gristbook.reading.files import inside

_ROWS: tuple[Section[Any], ...] = (
    Section("malts", "a malt", Malt),
    Section("sugars", "a sugar", Sugar),
    Section("fruits", "a fruit or juice", Fruit),
    Section("extracts", "a malt extract", Extract),
    Section("hops", "a hop", Hop),
    Section("yeasts", "a yeast", Yeast),
    Section("styles", "a style", Style),
    Section("finings", "a fining or spice", Fining),
    Section("waters", "a water", Water, rivals=("bicarbonate", "alkalinity", "acid capacity")),
    Section("salts", "a salt", Salt),
    Section("acids", "an acid", Acid),
    Section("allergens", "an allergen", Allergen),
)
SECTIONS = {section.name: section for section in _ROWS}
OTHER_FILES = frozenset({"prices"})
"""Files of an author's pantry that hold no ingredients: other readers take them."""


@dataclass(frozen=True, slots=True)
class Pantry:
    """Everything on the shelves. A shelf has its ``records`` and looks up a name as people write it."""

    malts: Shelf[Malt]
    sugars: Shelf[Sugar]
    fruits: Shelf[Fruit]
    extracts: Shelf[Extract]
    hops: Shelf[Hop]
    yeasts: Shelf[Yeast]
    styles: Shelf[Style]
    finings: Shelf[Fining]
    waters: Shelf[Water]
    salts: Shelf[Salt]
    acids: Shelf[Acid]
    allergens: Shelf[Allergen]

    @classmethod
    def load(cls, author_folder: Path | None, problems: Problems, shown_as: str = "pantry") -> Pantry:
        """Our records with the author's ``malts.yaml``, ``hops.yaml`` … laid over them.

        Parameters
        ----------
        author_folder : the author's pantry; it need not exist
        problems : takes what is wrong in the author's files
        shown_as : the folder as the author would type it
        """
        own = _own_files(author_folder, problems, shown_as) if author_folder else {}
        return cls(**{name: _shelf(section, own.get(name), problems, shown_as) for name, section in SECTIONS.items()})


@cache
def ours(name: str) -> Shelf[Any]:
    """The shelf of one section as it comes with the tool.

    Raises
    ------
    ValueError
        A file of ours is wrong: a fault of the tool, never of a book.
    """
    problems = Problems()
    source = files("gristbook.pantry").joinpath("data", f"{name}.yaml").read_text("utf-8")
    empty: Shelf[Any] = Shelf((), VOCABULARIES[name])
    shelf = read_section(source, f"gristbook/pantry/data/{name}.yaml", SECTIONS[name], empty, problems)
    if len(problems):
        raise ValueError("\n".join(map(str, problems)))
    return shelf


def _shelf(section: Section[R], own: Path | None, problems: Problems, shown_as: str) -> Shelf[R]:
    shelf: Shelf[R] = ours(section.name)
    if own is None:
        return shelf
    shown = f"{shown_as}/{own.name}"
    source = own_text(own, shown, problems)
    return shelf if source is None else read_section(source, shown, section, shelf, problems)


def own_text(own: Path, shown: str, problems: Problems) -> str | None:
    """The text of a file of the author's pantry; `None` with a problem filed where it cannot be read."""
    try:
        return inside(own.parents[1], f"{own.parent.name}/{own.name}").read_text("utf-8-sig")
    except (OSError, UnicodeDecodeError):
        problems.error(Place(shown), "this file cannot be read", expected="plain UTF-8 text")
        return None


def _own_files(folder: Path, problems: Problems, shown_as: str) -> dict[str, Path]:
    """The author's files by section; one that fits no shelf is a problem."""
    found: dict[str, Path] = {}
    for path in sorted(folder.iterdir()) if folder.is_dir() else ():
        if path.name.startswith(".") or path.suffix not in (".yaml", ".yml"):
            continue
        place = Place(f"{shown_as}/{path.name}")
        if path.suffix == ".yml":
            problems.error(place, f'a pantry file called "{path.name}"', suggestion=f"{path.stem}.yaml")
        elif path.stem in SECTIONS:
            found[path.stem] = path
        elif path.stem not in OTHER_FILES:
            names = [f"{name}.yaml" for name in (*SECTIONS, *OTHER_FILES)]
            what, expected = f'the pantry has no shelf "{path.name}"', "one of " + ", ".join(sorted(names))
            problems.unknown(place, what, path.name, names, expected=expected)
    return found
