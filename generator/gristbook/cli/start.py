"""`gristbook start DIR`: begin a book, with a brewhouse asked for in three questions and a recipe that fits it."""

from __future__ import annotations

import argparse
import sys
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TypeVar

from gristbook.cli import Told, WrongCall
from gristbook.cli.files import write_new
from gristbook.cli.report import COMMAND_LINE, report
from gristbook.cli.schema import FILES, schema
from gristbook.interface import Book
from gristbook.problems import Problems
from gristbook.text.starter import OF_THE_POT, Vessels, chosen, files, litres, usual_batch

EXAMPLE = 'gristbook start my-beers --pot "20 L" --mash bag --batch "9 L"'
USUAL_POT = {False: 20.0, True: 18.92705892}
"""The pot that is taken where nobody says one, 20 L or 5 gal."""

QUESTIONS = {
    "pot": "How much does your pot hold, to the brim?",
    "mash": "What does your grain stand in: a bag in that pot, a tun of its own, or nothing (malt extract)?",
    "batch": "How much beer shall one brew make?",
}

WORKFLOW = ".github/workflows/book.yml"
"""Where a widespread forge looks for what it does by itself."""

OF_AN_EDITOR: Mapping[str, dict[str, str]] = {
    "nvim": {".nvim.lua": "nvim.lua"},
    "code": {".vscode/settings.json": "settings.json", ".vscode/tasks.json": "tasks.json"},
}
"""What an editor reads where it is begun in a book, beside the schemas, by which of our own files it is."""

Read = TypeVar("Read")


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook start`."""
    parser.add_argument("folder", type=Path, metavar="DIR", help="the new book's folder; nothing in it is overwritten")
    parser.add_argument("--title", metavar="TITLE", help="the book's title (the folder's name)")
    parser.add_argument("--pot", metavar="SIZE", help='what the pot holds, to the brim, as "20 L" or "5 gal" (20 L)')
    parser.add_argument("--mash", choices=tuple(OF_THE_POT), help="what the grain stands in; nothing: extract (bag)")
    parser.add_argument("--batch", metavar="SIZE", help="how much beer a brew makes (what the pot has room for)")
    parser.add_argument("--units", choices=("metric", "US"), help="the book's units (those of the sizes)")
    more = "; in a book that is there already it is all that is laid"
    words = f"lay {WORKFLOW}, too: it checks pull requests, and publishes the site{more}"
    parser.add_argument("--workflow", action="store_true", help=words)
    words = f"lay what lets this editor complete and check the book's texts, too{more}"
    parser.add_argument("--editor", choices=tuple(OF_AN_EDITOR), help=words)


def run(options: argparse.Namespace) -> None:
    """Lay the book; what is not said is asked for on a terminal, and taken as usual, and said to be, anywhere else."""
    folder: Path = options.folder
    besides = _besides(options)
    if besides and (folder / "book.yaml").is_file():
        _keep_what_is_there(folder, list(besides))
        _lay(folder, _made(besides, folder))
        print("".join(f"{folder / name}\n" for name in besides), end="")
        _say_of(options)
        return
    title = (
        options.title or folder.resolve().name.replace("-", " ").replace("_", " ").strip().capitalize() or "My beers"
    )
    _keep_what_is_there(folder, [*files(title, Vessels(20, "bag", 9, us=False)), *besides])
    asks = sys.stdin.isatty() and sys.stdout.isatty()
    while True:
        vessels = _vessels(options, asks=asks)
        laid = files(title, vessels)
        if not (misfit := _misfit(laid)):
            break
        print(f"gristbook: that does not fit: {misfit}", file=sys.stderr)
        if not asks or options.batch:
            raise WrongCall
    _lay(folder, laid)
    _lay(folder, _made(besides, folder))
    if not asks and not all((options.pot, options.mash, options.batch)):
        print("What was not said is taken as usual; change it in book.yaml.")
    here = str(folder) if " " not in str(folder) else f"'{folder}'"
    size, pot = vessels.volume(vessels.batch), vessels.volume(vessels.pot)
    print(f"{folder}: a book for {size} a brew in a pot of {pot} (mash: {vessels.mash})")
    print("".join(f"  {folder / name}\n" for name in (*laid, *besides)), end="")
    _say_of(options)
    print(f"Next: gristbook check {here}, gristbook preview {here}, and {folder / 'README.md'} for the rest")


def _say_of(options: argparse.Namespace) -> None:
    """What is still to be done with what was laid besides."""
    if options.workflow:
        print(
            f"Say in {WORKFLOW}, at GRISTBOOK, what pip takes Gristbook from; what is on the branch main is published."
        )
    if options.editor:
        print("The README says how the editor takes it up; print .schemas anew when the pantry or a brewhouse changes.")


def _lay(folder: Path, laid: dict[str, str]) -> None:
    """Write all files, or none."""
    done: list[Path] = []
    try:
        for name, text in laid.items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            write_new(folder / name, text)
            done.append(folder / name)
    except BaseException:
        for path in done:
            path.unlink()
        raise


def _besides(options: argparse.Namespace) -> dict[str, str]:
    """What was asked for besides the book, by its path there: which of our own files each is, or of what a schema."""
    found = {WORKFLOW: "book.yml"} if options.workflow else {}
    if options.editor:
        found |= OF_AN_EDITOR[options.editor] | {f".schemas/{kind}.json": kind for kind in FILES}
    return found


def _made(besides: dict[str, str], book: Path) -> dict[str, str]:
    """The texts of these for a book that is there."""
    ours = Path(__file__).parent / "laid"
    return {
        name: f"{schema(what, book)}\n" if what in FILES else (ours / what).read_text("utf-8")
        for name, what in besides.items()
    }


def _keep_what_is_there(folder: Path, names: list[str]) -> None:
    there = [name for name in names if (folder / name).exists() or (folder / name).is_symlink()]
    if there:
        print(f"gristbook: {folder} has {', '.join(there)} already: nothing was written", file=sys.stderr)
        raise Told


def _vessels(options: argparse.Namespace, *, asks: bool) -> Vessels:
    """The three answers, each from its option, from whoever sits at the terminal, or as it usually is."""
    us = {"US": True, "metric": False}.get(options.units)

    def answer(name: str, usual: str, read: Callable[[str], Read | None]) -> Read:
        said = getattr(options, name)
        while True:
            words = said or (_typed(f"{QUESTIONS[name]} [{usual}] ") if asks else "") or usual
            found = read(words)
            if found is not None:
                return found
            if said or not asks:
                raise WrongCall

    def size(words: str) -> tuple[float, bool] | None:
        problems = Problems()
        found = litres(words, problems, where=COMMAND_LINE, us=us)
        report(problems, Path())
        return found

    usual_pot = Vessels(USUAL_POT[bool(us)], "bag", 0, us=bool(us))
    pot, typed_us = answer("pot", usual_pot.volume(usual_pot.pot), size)
    us = typed_us if us is None else us
    mash = answer("mash", "bag", lambda words: chosen(words, OF_THE_POT))
    batch = usual_batch(pot, mash, us=us)
    batch, _ = answer("batch", Vessels(pot, mash, batch, us=us).volume(batch), size)
    return Vessels(pot, mash, batch, us=us)


def _typed(question: str) -> str:
    try:
        return input(question).strip()
    except EOFError:
        raise KeyboardInterrupt from None


def _misfit(laid: dict[str, str]) -> str:
    """What the reader of books says against a book that is not laid yet; "" where it says nothing."""
    with tempfile.TemporaryDirectory() as folder:
        for name, text in laid.items():
            write_new(Path(folder) / name, text)
        book = Book(Path(folder))
        book.check()
    return next((f"{it.what}; expected {it.expected}" for it in book.problems), "")
