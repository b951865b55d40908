"""Which file of a book's folder is what: its recipes, beside `book.yaml` or a folder down, and what nobody reads."""

from collections.abc import Iterator
from pathlib import Path

from gristbook.model.paths import BOOK_FOLDERS
from gristbook.problems import Place, Problems
from gristbook.reading.fields import field_called
from gristbook.reading.names import DATED, one_form, shown
from gristbook.reading.page import FENCE
from gristbook.text.vocabulary import RECIPE

OTHERS = frozenset(
    {
        *("readme", "license", "licence", "copying", "notice", "authors", "credits"),
        *("changes", "changelog", "history", "contributing", "news", "todo", "requirements", "robots"),
    }
)
"""Files of many folders that are nobody's recipe, by their names without an ending."""

UNREAD = frozenset({".markdown", ".mdown", ".mkd", ".yaml", ".yml"})
"""Endings of texts that somebody may mean to be read, and that only `.md` and `book.yaml` are here."""


def recipes_in(folder: Path) -> list[str]:
    """The recipes of a book by their paths there, whether they can be read or not."""
    found = [path for path in sorted(folder.glob("*.md")) if _is_recipe(path)]
    for shelf in _shelves(folder):
        found += _recipes_on(shelf)
    return [path.relative_to(folder).as_posix() for path in found]


def name_the_unread(folder: Path, problems: Problems) -> None:
    """File a warning for each text that is no file of a book."""
    own = {folder / "book.yaml"}
    used = (shelf for shelf in _shelves(folder) if (shelf / "book.yaml").is_file() or any(_recipes_on(shelf)))
    for home in (folder, folder / "pages", *used):
        for path in sorted(home.iterdir()) if home.is_dir() else ():
            if path in own or path.name.startswith(".") or _stem(path) in OTHERS or not path.is_file():
                continue
            place = Place(shown(path.relative_to(folder).as_posix()))
            if path.suffix.casefold() in UNREAD and path.stem == "book":
                problems.warning(place, "a second book, which nobody reads", expected="one book.yaml a book")
            elif _is_unread(path):
                problems.warning(place, "nobody reads this file", expected=f"{shown(path.stem)}.md, if it is a page")


def _is_unread(path: Path) -> bool:
    """Whether it looks like a text that is read, and is none; a note in plain text does if it begins as a recipe."""
    ending = path.suffix.casefold()
    if ending == ".txt":
        return _begins_as_one(path)
    return ending in UNREAD or (ending == ".md" != path.suffix)


def _shelves(folder: Path) -> list[Path]:
    """The folders that recipes may lie in: no recipe's own, none of the book's, none that is hidden."""
    recipes = {one_form(path.stem) for path in folder.glob("*.md")}
    kept = BOOK_FOLDERS | recipes
    return [
        path
        for path in sorted(folder.iterdir())
        if path.is_dir() and not path.name.startswith(".") and one_form(path.name) not in kept
    ]


def _recipes_on(shelf: Path) -> Iterator[Path]:
    return (path for path in sorted(shelf.glob("*.md")) if not DATED.fullmatch(path.stem) and _is_recipe(path))


def _stem(path: Path) -> str:
    return path.name.partition(".")[0].casefold()


def _is_recipe(path: Path) -> bool:
    """Whether it is meant for a recipe: a README is none unless it begins as one does."""
    if path.name.startswith("."):
        return False
    return _stem(path) not in OTHERS or _begins_as_one(path)


def _begins_as_one(path: Path) -> bool:
    try:
        first = path.read_text("utf-8-sig").lstrip().split("\n", 1)[0].rstrip()
    except (OSError, UnicodeDecodeError):
        return False
    return first == FENCE or field_called(RECIPE, first.partition(":")[0]) is not None
