"""Gristbook, loaded once: what it is asked for, it runs in a child of its own, which may be killed like any other.

Run as a program it reads requests, a line of JSON each, and answers with the child's process and then with how that
ended. `Builder` is who asks. A child has loaded the code, as any run has, and knows nothing of an earlier request.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any


@dataclass(frozen=True, slots=True)
class Ended:
    """The exit status, below nothing where it was killed, what it printed, and how many seconds it took."""

    status: int
    out: str
    err: str
    seconds: float


class Builder:
    """Runs Gristbook's commands, one at a time, with what they keep in a folder of its own."""

    def __init__(self, cache: Path) -> None:
        self.cache = cache
        cache.mkdir(parents=True, exist_ok=True)
        self._said = [cache.with_suffix(f".{name}") for name in ("out", "err")]
        self._process = subprocess.Popen(
            [sys.executable, __file__],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path)), "GRISTBOOK_CACHE": str(cache)},
        )

    def begin(self, *words: object) -> None:
        """Ask for a command; `ended` waits for it."""
        self._tell({"words": list(map(str, words)), "said": list(map(str, self._said))})
        self._begun, self._child = time.perf_counter(), int(self._hear())

    def kill(self, after: float, written: Path | None = None) -> None:
        """End it as a power cut would, so many seconds from now or from when something first lies elsewise in a folder.

        Until it is waited for, by `ended`, its number is nobody else's.
        """
        before = written.stat().st_mtime_ns if written else 0
        while written and written.stat().st_mtime_ns == before and self._at_work():
            time.sleep(0.001)
        time.sleep(after)
        os.kill(self._child, signal.SIGKILL)

    def _at_work(self) -> bool:
        state = Path(f"/proc/{self._child}/stat").read_text("utf-8").rsplit(")", 1)[1].split()[0]
        return state != "Z"

    def ended(self) -> Ended:
        self._tell({})
        status = int(self._hear())
        out, err = (path.read_text("utf-8") for path in self._said)
        return Ended(status, out, err, time.perf_counter() - self._begun)

    def run(self, *words: object) -> Ended:
        self.begin(*words)
        return self.ended()

    def close(self) -> None:
        with self._process:
            assert self._process.stdin is not None
            self._process.stdin.close()

    def _tell(self, request: dict[str, Any]) -> None:
        assert self._process.stdin is not None
        print(json.dumps(request), file=self._process.stdin, flush=True)

    def _hear(self) -> str:
        assert self._process.stdout is not None
        return self._process.stdout.readline()


def serve() -> None:
    load()
    for line in sys.stdin:
        asked = json.loads(line)
        if asked:
            child = os.fork()
            if not child:
                os._exit(call(**asked))
            print(child, flush=True)
        else:
            print(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), flush=True)


def load() -> None:
    """All of Gristbook, so that no child has to."""
    import importlib
    import pkgutil

    import gristbook

    for module in pkgutil.walk_packages(gristbook.__path__, "gristbook."):
        if module.name not in ("gristbook.__main__", "gristbook.lend"):
            importlib.import_module(module.name)


def call(words: list[str], said: list[str]) -> int:
    """In the child: the command, with what it prints in two files."""
    from gristbook import cli

    os.dup2(os.open(os.devnull, os.O_RDONLY), 0)
    for number, path in enumerate(said, 1):
        os.dup2(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC), number)
    try:
        status = cli.main(words)
    except SystemExit as left:
        status = int(left.code or 0)
    sys.stdout.flush()
    sys.stderr.flush()
    return status


if __name__ == "__main__":
    serve()
