"""A command, run to its end, and what it took: with all the processes that it began, on Linux."""

from __future__ import annotations

import os
import subprocess
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryFile
from threading import Event, Thread

A_LOOK = 0.02
"""Seconds from one look at the memory to the next."""
PAGE = os.sysconf("SC_PAGE_SIZE")


@dataclass(frozen=True, slots=True)
class Ran:
    """Seconds of processors, seconds by the clock, megabytes at the worst moment, and what it printed."""

    processor: float
    wall: float
    memory: float
    said: str


def measured(command: Sequence[str], env: Mapping[str, str]) -> Ran:
    """Run a command and measure it; one that fails ends the benchmark with what it said.

    Processor time is the kernel's own count (`wait4`) of the process and of all that it waited for. Memory is the sum
    of what they hold at one moment (resident, so that what they share counts twice), looked at fifty times a second.
    """
    with TemporaryFile("w+", encoding="utf-8") as out:
        begun = time.perf_counter()
        process = subprocess.Popen(
            command, stdout=out, stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL, env=dict(env)
        )
        over, worst = Event(), [0]
        looking = Thread(target=_look, args=(process.pid, over, worst))
        looking.start()
        _, status, used = os.wait4(process.pid, 0)
        wall = time.perf_counter() - begun
        process.returncode = os.waitstatus_to_exitcode(status)
        over.set()
        looking.join()
        out.seek(0)
        said = out.read()
    if process.returncode:
        raise SystemExit(f"{' '.join(command)} ended with {process.returncode}:\n{said[-2000:]}")
    return Ran(used.ru_utime + used.ru_stime, wall, worst[0] / 1e6, said)


def _look(first: int, over: Event, worst: list[int]) -> None:
    while not over.wait(A_LOOK):
        worst[0] = max(worst[0], sum(map(_resident, _family(first))))


def _family(process: int) -> Iterator[int]:
    """A process and all that descend from it."""
    yield process
    with suppress(OSError):
        for thread in Path(f"/proc/{process}/task").iterdir():
            for child in (thread / "children").read_text().split():
                yield from _family(int(child))


def _resident(process: int) -> int:
    with suppress(OSError, IndexError):
        return int(Path(f"/proc/{process}/statm").read_text().split()[1]) * PAGE
    return 0
