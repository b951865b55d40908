"""What several commands share: finding a recipe's book, and the plan of a recipe in the size that was asked for."""

import argparse
from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path

from gristbook.cli import Told
from gristbook.cli.report import COMMAND_LINE, report
from gristbook.interface import ASKED, Book, NoPlan, Plan
from gristbook.problems import Place, Problem, Problems
from gristbook.reading.files import inside


def describe_brew(parser: argparse.ArgumentParser) -> None:
    """A recipe, and the edition of it that is brewed."""
    parser.add_argument("recipe", type=Path, metavar="RECIPE", help="the recipe's file, in its book")
    parser.add_argument("--edition", metavar="EDITION", help='an edition, as book.yaml writes it: "10 L in stove"')


def describe_size(parser: argparse.ArgumentParser) -> None:
    """The options that ask for another size, brewhouse or source of extract."""
    parser.add_argument("--batch", metavar="SIZE", help='another batch, as "12 L" or "5 gal"')
    parser.add_argument("--brewhouse", metavar="NAME", help="another of the book's brewhouses")
    parser.add_argument(
        "--from", dest="source", choices=("extract", "grain"), help="brew it from malt extract, or grain"
    )


def find(path: Path, options: argparse.Namespace) -> Plan:
    """The plan that the options ask for; `Told` where there is none."""
    folder = book_of(path)
    own = path_in(folder, path)
    try:
        return Book(folder).plan(own, **sized(options))
    except NoPlan as refusal:
        report(as_asked(refusal.problems), folder)
        raise Told from refusal


def book_and_text(path: Path, options: argparse.Namespace) -> tuple[Path, str]:
    """The folder of the book that is named, itself or by one of its texts, and that text's path in it, or "".

    `Told` where there is no such text, or no book above it.
    """
    if path.is_dir() or not (path.is_file() or path.suffix == ".md"):
        return path, ""
    if not path.is_file():
        find(path, options)  # which tells that it is not there, and what is
    folder = book_of(path)
    own = path_in(folder, path)
    return folder, "" if own == "book.yaml" else own


def sized(options: argparse.Namespace) -> dict[str, str]:
    """What `Book.plan` is to be asked for."""
    asked = ("batch", "brewhouse", "source", "edition")
    return {name: getattr(options, name, None) or "" for name in asked}


def as_asked(problems: Iterable[Problem]) -> Iterator[Problem]:
    """Problems as they are told to whoever asked: what is wrong with the question stands on the command line."""
    return (it if it.place.path != ASKED else replace(it, place=Place(COMMAND_LINE)) for it in problems)


def path_in(folder: Path, recipe: Path) -> str:
    """A recipe's path in its book, links followed."""
    return inside(folder, recipe.absolute()).resolve().relative_to(folder.resolve()).as_posix()


def book_of(path: Path) -> Path:
    """The nearest folder above a recipe that holds a `book.yaml`, as the caller would type it; or else `Told`."""
    for folder in (*path.parents, *path.resolve().parents):
        if (folder / "book.yaml").is_file():
            return folder
    problems = Problems()
    problems.error(Place(path.name), "no book.yaml here or in any folder above", expected="a recipe of a book")
    report(problems, path.parent)
    raise Told
