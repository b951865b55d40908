"""A preview on the loopback: pages with a script that asks what has changed, for this computer's browsers alone."""

from __future__ import annotations

import json
import mimetypes
import sys
from collections.abc import Callable
from contextlib import suppress
from html import escape
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from socketserver import TCPServer
from typing import Any
from urllib.parse import parse_qs, unquote, urlsplit

from gristbook.preview.shown import Preview

OURS = ".preview"
"""The folder of what the preview adds; no file of a site begins with a dot."""

SCRIPT, STYLE, NEWS = f"{OURS}/preview.js", f"{OURS}/preview.css", f"{OURS}/news"
KINDS = {".html": "text/html", ".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}
ALIVE = 15.0
"""Seconds after which a browser that waits for news is told that there are none; one that has gone is found out so."""

HEADERS = {
    "Cache-Control": "no-store",
    "Content-Security-Policy": "frame-ancestors 'none'",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}
NOT_THERE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark"><title>No such page</title></head>
<body><h1>No such page</h1><p>{path} is no page of this book as it stands. It will be shown here once it is.</p>
<p><a href="/">The first page</a></p></body></html>
"""


class Server(ThreadingHTTPServer):
    """Serves a preview at 127.0.0.1; ``port`` 0 takes a free one. ``tell`` is told of a fault of our own.

    Raises
    ------
    OSError
        The port is taken, or may not be used.
    """

    allow_reuse_address = sys.platform != "win32"  # where it would take a port from whoever has it

    def __init__(self, preview: Preview, port: int, tell: Callable[[Exception], None]) -> None:
        super().__init__(("127.0.0.1", port), _Handler)
        self.preview, self._tell = preview, tell
        self.hosts = {f"{host}:{self.server_port}" for host in ("127.0.0.1", "localhost")}
        self.address = f"http://127.0.0.1:{self.server_port}/"

    def server_bind(self) -> None:
        """Take the port, and ask nobody for the name of this computer."""
        TCPServer.server_bind(self)
        self.server_name, self.server_port = "127.0.0.1", int(self.server_address[1])

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Tell of a fault, unless it is that a browser has gone."""
        fault = sys.exception()
        if isinstance(fault, Exception) and not isinstance(fault, OSError):
            self._tell(fault)


class _Handler(BaseHTTPRequestHandler):
    server: Server
    server_version, sys_version = "gristbook", ""
    timeout = 60
    error_message_format = "%(code)d %(message)s\n"
    error_content_type = "text/plain"

    def do_GET(self) -> None:  # the name is Python's
        """A file, or news of a page for as long as somebody listens."""
        asked = urlsplit(self.path)
        path = unquote(asked.path).removeprefix("/")
        if not self._is_from_here():
            self.send_error(
                HTTPStatus.FORBIDDEN, "this is for a browser on this computer, at the address that was printed"
            )
        elif path == NEWS:
            self._tell_news(parse_qs(asked.query).get("page", [""])[0])
        elif path in (SCRIPT, STYLE):
            self._send(path, Path(__file__).with_name(path.rpartition("/")[2]).read_bytes())
        else:
            self._send_file(f"{path}index.html" if path.endswith("/") or not path else path)

    do_HEAD = do_GET  # noqa: N815  (the name is Python's)

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing: what matters is on the page."""

    def _is_from_here(self) -> bool:
        """Whether a page of ours asks, and no other site in the same browser, under whatever name it found us."""
        host, origin = self.headers.get("Host", ""), self.headers.get("Origin")
        known = self.server.hosts | {it.removesuffix(":80") for it in self.server.hosts}
        site = self.headers.get("Sec-Fetch-Site", "none")
        leads = self.headers.get("Sec-Fetch-Mode") == "navigate"
        return host in known and origin in (None, f"http://{host}") and (leads or site in ("none", "same-origin"))

    def _send_file(self, path: str) -> None:
        data = self.server.preview.file(path)
        if data is not None and not path.endswith(".html"):
            self._send(path, data)
            return
        status = HTTPStatus.OK if data is not None else HTTPStatus.NOT_FOUND
        page = data if data is not None else NOT_THERE.format(path=escape(path)).encode()
        own = f'<script src="/{SCRIPT}" data-page="{escape(path)}" data-mark="{self.server.preview.mark(path)}" defer>'
        head, end, rest = page.partition(b"</head>")
        self._send("page.html", head + own.encode() + b"</script>" + end + rest, status)

    def _send(self, path: str, data: bytes, status: HTTPStatus = HTTPStatus.OK) -> None:
        kind = next((it for end, it in KINDS.items() if path.endswith(end)), None) or mimetypes.guess_type(path)[0]
        self._begin(status, kind or "application/octet-stream", **{"Content-Length": str(len(data))})
        if self.command != "HEAD":
            self.wfile.write(data)

    def _begin(self, status: HTTPStatus, kind: str, **more: str) -> None:
        self.send_response(status)
        self.send_header("Content-Type", f"{kind}; charset=utf-8" if kind.startswith("text/") else kind)
        for name, value in {**HEADERS, **more}.items():
            self.send_header(name, value)
        self.end_headers()

    def _tell_news(self, path: str) -> None:
        """Server-sent events: what is news for the page at ``path``, until whoever listens has gone."""
        self._begin(HTTPStatus.OK, "text/event-stream")
        seen = -1
        with suppress(OSError):
            while self.command != "HEAD":
                found = self.server.preview.news(path, seen, ALIVE)
                seen, told = found or (seen, None)
                self.wfile.write(f"data: {json.dumps(told)}\n\n".encode() if told else b":\n\n")
