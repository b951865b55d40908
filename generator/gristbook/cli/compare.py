"""`gristbook compare`: which figures moved between two recipes, or since a revision, and which changed lines did it."""

import argparse
import json
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from gristbook.cli import Told
from gristbook.cli.comparing.causes import Bench, Compared
from gristbook.cli.comparing.revision import NoRevision, texts_at, texts_in
from gristbook.cli.comparing.sides import Side, laid_out, partners
from gristbook.cli.comparing.words import Section, as_data, as_markdown, as_text, idle, section
from gristbook.cli.options import book_of, path_in
from gristbook.cli.report import report
from gristbook.interface import Book, NoPlan, Plan
from gristbook.problems import Problem

EXAMPLE = "gristbook compare recipes/quillmere-best.md recipes/lockside-mild.md"


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook compare`."""
    parser.add_argument("recipes", type=Path, nargs="*", metavar="RECIPE", help="two recipes, or one with --since")
    then = "the book as git has it there (recipes, book.yaml, pantry and brews) beside the book as it is now"
    parser.add_argument("--since", metavar="REVISION", help=then)
    parser.add_argument("--book", type=Path, metavar="DIR", help="with --since, the whole book (the one you are in)")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--markdown", action="store_true", help="print tables, for the summary of a pull request")
    form.add_argument("--json", action="store_true", help="print it for another program")
    parser.set_defaults(refuse=parser.error)


def run(options: argparse.Namespace) -> None:
    """Print what moved, and what each changed line does alone; `Told` where a side cannot be read.

    A side is the whole book as it was or is: with its settings, its pantry, and what its brews had taught it. Each
    changed line is made alone in the older side: a line of a recipe or of book.yaml, a file of the pantry, all brews.
    """
    if len(options.recipes) != 2 if options.since is None else len(options.recipes) > 1:
        options.refuse("name two recipes, or with --since one or none")
    if options.book and (options.recipes or options.since is None):
        options.refuse("--book is a whole book, which is compared with --since")
    with TemporaryDirectory() as home:
        try:
            then, now = _since(options, Path(home)) if options.since is not None else _two(options.recipes)
        except NoRevision as why:
            print(f"gristbook: {why}", file=sys.stderr)
            raise Told from why
        _compare(options, then, now, Path(home))


def _two(recipes: list[Path]) -> tuple[Side, Side]:
    """The books of two recipes, which most often are one."""
    folders = [book_of(recipe) for recipe in recipes]
    books = [Book(folder) for folder in dict.fromkeys(folders)]
    then, now = (
        Side(str(it), folder, texts_in(folder), book)
        for it, folder, book in zip(recipes, folders, (books[0], books[-1]), strict=True)
    )
    return then, now


def _since(options: argparse.Namespace, home: Path) -> tuple[Side, Side]:
    """A book as it was at a revision, and as it is."""
    folder = options.book or book_of(options.recipes[0] if options.recipes else Path("book.yaml"))
    texts, day = texts_at(folder, options.since)
    then = Side(f"{options.since} of {day}", Path(f"{options.since}:{folder}"), texts, laid_out(texts, home / "then"))
    return then, Side("now", folder, texts_in(folder), Book(folder))


def _compare(options: argparse.Namespace, then: Side, now: Side, home: Path) -> None:
    whole, same = not options.recipes, partners(then, now)
    pairs = [*same.items()]
    if not whole:
        path = path_in(now.book.folder, options.recipes[-1])
        earlier = next((was for was, after in same.items() if after == path), path)
        pairs = [(earlier if options.since is not None else path_in(then.book.folder, options.recipes[0]), path)]
    wrong = {side.shown: [*side.book.problems.errors()] if whole else [] for side in (then, now)}
    bench, found, failed = Bench(then, now, home), list[Compared](), list[str]()
    for was, path in pairs:
        if not whole or bench.shared or then.texts[was] != now.texts[path]:
            before, after = _planned(then, was, wrong[then.shown]), _planned(now, path, wrong[now.shown])
            if before and after:
                found.append(bench.compared(was, path, before, after))
            else:
                failed.append(path)
    for shown, problems in wrong.items():
        report(dict.fromkeys(problems), shown)
    if whole or found:
        _print(options, (then, now), same, found, failed)
    if any(wrong.values()):
        raise Told


def _planned(side: Side, path: str, wrong: list[Problem]) -> Plan | None:
    """A recipe of a side; `None` with what is wrong there where it has none."""
    try:
        return side.plan(path)
    except NoPlan as refusal:
        wrong += refusal.problems
    return None


def _print(
    options: argparse.Namespace,
    sides: tuple[Side, Side],
    same: dict[str, str],
    found: list[Compared],
    failed: list[str],
) -> None:
    whole, (then, now) = not options.recipes, sides
    new = [path for path in now.recipes if path not in same.values()]
    gone = [path for path in then.recipes if path not in same]
    renamed = {was: path for was, path in same.items() if was != path}
    if options.json:
        names = {"new": new, "gone": gone, "renamed": renamed, "failed": failed} if whole else {}
        data = {"then": then.name, "now": now.name, **names, "recipes": [as_data(it) for it in found]}
        print(json.dumps(data, ensure_ascii=False, indent=1))
        return
    sections = [section(it, "" if whole else then.name) for it in found if not whole or it.touched]
    if whole:
        notes = [*(f"{it}: new" for it in new), *(f"{it}: gone" for it in gone)]
        notes += [*(f"{was}: now {path}" for was, path in renamed.items()), *idle(found)]
        notes += [f"{it}: cannot be compared" for it in failed]
        moved = sum(bool(it.moves) for it in found)
        told = "nothing can be compared" if failed and not found else "no figure moved"
        told = f"figures moved in {moved} of {len(now.recipes)} recipes" if moved else told
        sections = [Section(f"Since {then.name}: {told}", notes=tuple(notes)), *sections]
    for line in (as_markdown if options.markdown else as_text)(sections):
        print(line)
