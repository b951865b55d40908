"""`gristbook compare`: which figures moved between two recipes, or since a revision, and which changed lines did it."""

import argparse
import json
import sys
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from gristbook.cli import Told
from gristbook.cli.comparing.causes import Bench, Compared
from gristbook.cli.comparing.revision import NoRevision, texts_at, texts_in
from gristbook.cli.comparing.sides import Side, laid_out, partners, shared_lines
from gristbook.cli.comparing.words import Section, as_data, as_markdown, as_text, section
from gristbook.cli.options import book_of
from gristbook.cli.report import report
from gristbook.interface import Book, NoPlan
from gristbook.reading.files import inside


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook compare`."""
    parser.add_argument("recipes", type=Path, nargs="*", metavar="RECIPE", help="two recipes' files, or one with --since")
    parser.add_argument(
        "--since",
        metavar="REVISION",
        help="the book as git kept it then, with its settings, pantry and brews, beside the book as it is now",
    )
    parser.add_argument("--book", type=Path, metavar="DIR", help="a whole book's folder; the current one, if none is named")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--markdown", action="store_true", help="print tables for the summary of a change")
    form.add_argument("--json", action="store_true", help="print it for another program")
    parser.set_defaults(refuse=parser.error)


def run(options: argparse.Namespace) -> None:
    """Say what moved; `Told` where a side cannot be read."""
    if len(options.recipes) != (2 if options.since is None else min(len(options.recipes), 1)):
        options.refuse("compare two recipes, or with --since one recipe or the whole book")
    if options.book and options.recipes:
        options.refuse("--book is for a whole book, and a recipe lies in its own")
    with TemporaryDirectory() as home:
        try:
            _run(options, Path(home))
        except NoRevision as why:
            print(f"gristbook: {why}", file=sys.stderr)
            raise Told from why


def _run(options: argparse.Namespace, home: Path) -> None:
    whole = not options.recipes
    then, now = _two(options.recipes) if options.since is None else _since(options, home)
    same = partners(then, now)
    if options.since is None:
        pairs = [tuple(_own(side, path) for side, path in zip((then, now), options.recipes, strict=True))]
    elif whole:
        pairs = [*same.items()]
    else:
        path = _own(now, options.recipes[0])
        pairs = [(next((it for it, there in same.items() if there == path), path), path)]
    problems = {side.shown: [*side.book.problems.errors()] if whole else [] for side in (then, now)}
    bench, found = Bench(then, now, shared_lines(then, now), home), []
    for was, path in pairs:
        if whole and not bench.shared and then.texts[was] == now.texts[path]:
            continue
        plans = []
        for side, its in ((then, was), (now, path)):
            try:
                plans.append(side.plan(its))
            except NoPlan as refusal:
                problems[side.shown] += refusal.problems
        if len(plans) == 2:
            found.append(bench.compared(was, path, *plans))
    for shown, of_side in problems.items():
        report(dict.fromkeys(of_side), shown)
    if whole or found:
        _print(options, then, now, same, found)
    if any(problems.values()):
        raise Told


def _two(paths: list[Path]) -> tuple[Side, Side]:
    """The books of two recipes, which are most often one."""
    first, second = (book_of(path) for path in paths)
    book = Book(first)
    other = book if first.resolve() == second.resolve() else Book(second)
    return (
        Side(str(paths[0]), first, texts_in(first), book),
        Side(str(paths[1]), second, texts_in(second), other),
    )


def _since(options: argparse.Namespace, home: Path) -> tuple[Side, Side]:
    """A book as it was at a revision, and as it is."""
    folder = options.book or book_of(options.recipes[0] if options.recipes else Path("book.yaml"))
    texts, day = texts_at(folder, options.since)
    then = Side(f"{options.since} of {day}", Path(f"{options.since}:{folder}"), texts, laid_out(texts, home / "then"))
    return then, Side("now", folder, texts_in(folder), Book(folder))


def _own(side: Side, path: Path) -> str:
    folder = side.book.folder
    return inside(folder, path.absolute()).resolve().relative_to(folder.resolve()).as_posix()


def _print(options: argparse.Namespace, then: Side, now: Side, same: dict[str, str], found: list[Compared]) -> None:
    whole = not options.recipes
    new = [path for path in now.recipes if path not in same.values()]
    gone = [path for path in then.recipes if path not in same]
    renamed = {was: path for was, path in same.items() if was != path}
    if options.json:
        kept = {"new": new, "gone": gone, "renamed": renamed} if whole else {}
        data = {"then": then.name, "now": now.name, **kept, "recipes": [as_data(it) for it in found]}
        print(json.dumps(data, ensure_ascii=False, indent=1))
        return
    sections = [section(it, whole=not whole) for it in found]
    if whole:
        sections.insert(0, _summary(then, found, new, gone, renamed))
    for line in (as_markdown if options.markdown else as_text)(sections):
        print(line)


def _summary(
    then: Side, found: list[Compared], new: list[str], gone: list[str], renamed: dict[str, str]
) -> Section:
    moved = sum(bool(it.moves) for it in found)
    title = f"Since {then.name}: {f'figures moved in {moved} of {len(then.recipes)} recipes' if moved else 'no figure moved'}"
    notes = [*(f"new: {it}" for it in new), *(f"gone: {it}" for it in gone)]
    notes += [f"renamed: {was}, now {path}" for was, path in renamed.items()]
    return Section(title, notes=notes)
