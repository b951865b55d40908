"""`gristbook preview BOOK`: show a book in the browser as it is saved, with what is wrong in it over its pages."""

import argparse
import sys
from contextlib import suppress
from pathlib import Path
from threading import Thread

from gristbook.cli import Told, WrongCall, own_fault
from gristbook.cli.report import report

EXAMPLE = "gristbook preview recipes"


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook preview`."""
    parser.add_argument("book", type=Path, metavar="BOOK", nargs="?", default=Path(), help="the book's folder (.)")
    parser.add_argument("--port", type=_port, default=0, metavar="N", help="the port to serve it at (a free one)")


def run(options: argparse.Namespace) -> None:
    """Serve the book on this computer alone, until Ctrl-C; nothing is written into its folder."""
    from gristbook.preview.server import Server
    from gristbook.preview.shown import Preview
    from gristbook.preview.standing import NoBook
    from gristbook.preview.watching import saves

    try:
        preview = Preview(options.book, own_fault)
    except NoBook as refusal:
        report(refusal.problems, options.book)
        raise Told from refusal
    try:
        server = Server(preview, options.port, own_fault)
    except OSError as refusal:
        what = f"port {options.port} cannot be taken: {refusal.strerror}"
        print(f"gristbook: {what}; name another, or none for a free one", file=sys.stderr)
        raise WrongCall from refusal
    report(preview.problems(), options.book)
    with server, suppress(KeyboardInterrupt):
        print(f"{server.address} shows the book, and follows each save; Ctrl-C ends it", flush=True)
        Thread(target=server.serve_forever, daemon=True).start()
        try:
            for changed in saves(options.book):
                preview.look() if changed else preview.rest()
        finally:
            server.shutdown()
    print("stopped")


def _port(said: str) -> int:
    if not said.isdecimal() or int(said) > 65535:
        raise argparse.ArgumentTypeError(f'"{said}" is no port; expected a number up to 65535')
    return int(said)
