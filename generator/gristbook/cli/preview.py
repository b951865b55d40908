"""`gristbook preview BOOK`: show a book in the browser as it is saved, with what is wrong in it over its pages."""

import argparse
import sys
from contextlib import suppress
from pathlib import Path
from threading import Thread
from urllib.parse import quote

from gristbook.cli import Told, WrongCall, own_fault
from gristbook.cli.options import book_and_text
from gristbook.cli.report import report

BOOK = "the book's folder, or a file in it (.)"

EXAMPLE = "gristbook preview recipes"


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook preview`."""
    parser.add_argument("book", type=Path, metavar="BOOK", nargs="?", default=Path(), help=BOOK)
    parser.add_argument("--port", type=_port, default=0, metavar="N", help="the port to serve it at (a free one)")


def run(options: argparse.Namespace) -> None:
    """Serve the book on this computer alone, until Ctrl-C; nothing is written into its folder."""
    from gristbook.preview.server import Server
    from gristbook.preview.shown import Preview
    from gristbook.preview.standing import NoBook
    from gristbook.preview.watching import saves
    from gristbook.site.disk.held import own_page

    folder, own = book_and_text(options.book, options)
    try:
        preview = Preview(folder, own_fault)
    except NoBook as refusal:
        report(refusal.problems, folder)
        raise Told from refusal
    try:
        server = Server(preview, options.port, own_fault)
    except OSError as refusal:
        what = f"port {options.port} cannot be taken: {refusal.strerror}"
        print(f"gristbook: {what}; name another, or none for a free one", file=sys.stderr)
        raise WrongCall from refusal
    report(preview.problems(), folder)
    with server, suppress(KeyboardInterrupt):
        page = own_page(own) if own and preview.file(own_page(own)) else ""
        print(f"{server.address}{quote(page)} shows the book, and follows each save; Ctrl-C ends it", flush=True)
        Thread(target=server.serve_forever, daemon=True).start()
        try:
            for changed in saves(folder):
                preview.look() if changed else preview.rest()
        finally:
            server.shutdown()
    print("stopped")


def _port(said: str) -> int:
    if not said.isdecimal() or int(said) > 65535:
        raise argparse.ArgumentTypeError(f'"{said}" is no port; expected a number up to 65535')
    return int(said)
