"""A preview over real HTTP: for this computer's browsers, its own files alone, and ended in a line."""

from __future__ import annotations

import http.client
import json
import os
import re
import signal
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from gristbook import cli
from gristbook.preview.server import Server
from gristbook.preview.watching import saves

from .conftest import MILD


def asked(server: Server, path: str, method: str = "GET", **headers: str) -> tuple[int, bytes, dict[str, str]]:
    line = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=60)
    line.request(method, path, headers={name.replace("_", "-"): it for name, it in headers.items()})
    answer = line.getresponse()
    return answer.status, answer.read(), dict(answer.getheaders())


def test_a_page_is_the_sites_own_with_one_script_more(server: Server) -> None:
    status, page, headers = asked(server, "/mild.html")
    mark = server.preview.mark("mild.html")
    script = f'<script src="/.preview/preview.js" data-page="mild.html" data-mark="{mark}" defer></script>'.encode()
    assert (status, page.replace(script, b"")) == (200, server.preview.file("mild.html"))
    assert page.count(script) == 1
    assert headers["Content-Type"] == "text/html; charset=utf-8"
    assert headers["Cache-Control"] == "no-store"
    assert b"connect-src 'self'" in page
    assert asked(server, "/")[1].startswith(b"<!doctype html>")
    assert asked(server, "/style.css")[1] == server.preview.file("style.css")
    assert asked(server, "/mild/colour.svg")[2]["Content-Type"] == "image/svg+xml"
    assert asked(server, "/.preview/preview.css")[0] == 200


def test_nothing_but_the_site_is_served(server: Server, book: Path) -> None:
    (book.parent / "secret.html").write_text("secret", "utf-8")
    for path in (
        "/../secret.html",
        "/%2e%2e/secret.html",
        "/mild.md",
        "/book.yaml",
        "/mild/",
        "/.preview/",
        "//etc/passwd",
    ):
        status, page, _ = asked(server, path)
        assert status == 404, path
        assert b"secret" not in page.replace(b"secret.html", b"")
        assert b"batch:" not in page
    assert b"<i>" not in asked(server, "/%3Ci%3E.html")[1]
    assert asked(server, "/mild.html", "HEAD")[:2] == (200, b"")
    for method in ("POST", "PUT", "DELETE", "OPTIONS"):
        assert asked(server, "/mild.html", method)[0] == 501


@pytest.mark.parametrize(
    "headers",
    [
        {"Host": "quillmere.example"},
        {"Host": "127.0.0.1:1"},
        {"Origin": "https://quillmere.example"},
        {"Origin": "null"},
        {"Sec_Fetch_Site": "cross-site", "Sec_Fetch_Mode": "no-cors"},
    ],
)
@pytest.mark.parametrize("path", ["/mild.html", "/.preview/news?page=mild.html"])
def test_another_site_gets_nothing(server: Server, path: str, headers: dict[str, str]) -> None:
    status, said, _ = asked(server, path, **headers)
    assert (status, b"mild" in said) == (403, False)


def test_this_computer_by_its_other_name_is_welcome(server: Server) -> None:
    host = f"localhost:{server.server_port}"
    assert asked(server, "/mild.html", Host=host, Origin=f"http://{host}", Sec_Fetch_Site="same-origin")[0] == 200


def test_it_listens_to_this_computer_alone(server: Server) -> None:
    assert server.socket.getsockname()[0] == "127.0.0.1"


def test_a_folder_is_watched_again_that_was_away(tmp_path: Path) -> None:
    folder = tmp_path / "book"
    folder.mkdir()
    seen = saves(folder)

    def sees(changed: bool) -> bool:
        return any(next(seen) is changed for _ in range(10))

    for words in ("before", "after"):
        assert sees(False), "it is watched by now"
        (folder / "mild.md").write_text(words, "utf-8")
        assert sees(True)
        folder.rename(tmp_path / f"away {words}")
        assert sees(True)
        folder.mkdir()


def test_a_real_one_follows_a_save_and_ends_in_a_line(book: Path) -> None:
    before = {path: path.read_bytes() for path in book.rglob("*") if path.is_file()}
    words = [sys.executable, "-m", "gristbook", "preview", str(book)]
    listening = {"preexec_fn": lambda: signal.signal(signal.SIGINT, signal.default_int_handler)}
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, **listening) as child:
        try:
            assert child.stdout is not None
            said = re.fullmatch(r"http://127\.0\.0\.1:(\d+)/ shows the book, .*\n", child.stdout.readline())
            assert said is not None
            line = http.client.HTTPConnection("127.0.0.1", int(said[1]), timeout=60)
            line.request("GET", "/.preview/news?page=mild.html")
            news = line.getresponse()
            first = json.loads(news.readline().removeprefix(b"data: "))
            (book / "mild.md").write_text(MILD.replace("2.4 kg", "2.4 kgg"), "utf-8")
            while not (line_of := news.readline()).startswith(b"data: "):
                pass
            then = json.loads(line_of.removeprefix(b"data: "))
            assert (first["problems"], then["problems"][0]["where"]) == ([], "mild.md:5")
            assert (first["mark"] == then["mark"], then["stale"]) == (True, True)
            child.send_signal(signal.SIGINT)
            out, err = child.communicate(timeout=60)
        finally:
            child.kill()
    assert (child.returncode, out, err) == (cli.FINE, "stopped\n", "")
    (book / "mild.md").write_bytes(before[book / "mild.md"])
    assert {path: path.read_bytes() for path in book.rglob("*") if path.is_file()} == before
    assert not (Path.cwd() / "site" / "mild.html").exists()


@pytest.mark.parametrize(
    ("port", "words"),
    [
        ("taken", "gristbook: port {} cannot be taken: Address already in use; name another, or none for a free one\n"),
        ("70000", '"70000" is no port; expected a number up to 65535'),
        ("-1", '"-1" is no port'),
        ("http", '"http" is no port'),
    ],
)
def test_a_port_that_cannot_be_is_told_in_a_line(
    book: Path, capsys: pytest.CaptureFixture[str], port: str, words: str
) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = str(taken.getsockname()[1]) if port == "taken" else port
        try:
            status = cli.main(["preview", str(book), f"--port={port}"])
        except SystemExit as left:  # argparse's own
            status = int(left.code or 0)
    said = capsys.readouterr()
    assert (status, said.out) == (cli.USAGE, "")
    assert words.format(port) in said.err
    assert os.linesep * 2 not in said.err
