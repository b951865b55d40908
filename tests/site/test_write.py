"""Writing to disk: nothing is lost that is not ours, nothing is half-written, and a crash is mended by the next run."""

from __future__ import annotations

import errno
import json
import os
import subprocess
import sys
import time
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from gristbook.site.disk import write as writing
from gristbook.site.disk.owned import DRAFTS, LIST, NotOurs
from gristbook.site.disk.write import Written, write

FIRST = {"index.html": b"one", "best.html": b"best", "best/card.html": b"card", "style.css": b"css"}


def on_disk(out: Path) -> dict[str, bytes]:
    return {p.relative_to(out).as_posix(): p.read_bytes() for p in sorted(out.rglob("*")) if p.is_file()}


def without_list(out: Path) -> dict[str, bytes]:
    return {path: data for path, data in on_disk(out).items() if path != LIST}


def test_a_first_run_writes_everything_and_says_so(tmp_path: Path) -> None:
    out = tmp_path / "deep" / "site"
    assert write(FIRST, out) == Written(new=4, changed=0, same=0, removed=0)
    assert without_list(out) == FIRST


def test_a_second_run_touches_no_file_that_is_the_same(tmp_path: Path) -> None:
    write(FIRST, tmp_path)
    for path in tmp_path.rglob("*"):
        os.utime(path, (1, 1))
    assert write(FIRST, tmp_path) == Written(new=0, changed=0, same=4, removed=0)
    assert {path.stat().st_mtime for path in tmp_path.rglob("*") if path.is_file()} == {1.0}


def test_a_file_that_is_no_longer_made_goes_and_its_empty_folder_with_it(tmp_path: Path) -> None:
    write(FIRST, tmp_path)
    second = {"index.html": b"two", "style.css": b"css"}
    assert write(second, tmp_path) == Written(new=0, changed=1, same=1, removed=2)
    assert without_list(tmp_path) == second
    assert not (tmp_path / "best").exists()


def test_a_file_of_somebody_else_stays(tmp_path: Path) -> None:
    write(FIRST, tmp_path)
    (tmp_path / "CNAME").write_bytes(b"theirs")
    (tmp_path / "best" / "notes.txt").write_bytes(b"theirs")
    write({"index.html": b"two"}, tmp_path)
    assert without_list(tmp_path) == {"index.html": b"two", "CNAME": b"theirs", "best/notes.txt": b"theirs"}


def test_a_folder_with_files_and_no_list_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / "thesis.txt").write_bytes(b"years of work")
    with pytest.raises(NotOurs, match="no list of ours"):
        write(FIRST, tmp_path)
    assert on_disk(tmp_path) == {"thesis.txt": b"years of work"}


def test_a_file_instead_of_a_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "site").write_bytes(b"a file")
    with pytest.raises(NotOurs):
        write(FIRST, tmp_path / "site")


def test_somebody_elses_file_where_a_page_should_go_is_left_and_named(tmp_path: Path) -> None:
    write({"index.html": b"one"}, tmp_path)
    (tmp_path / "best.html").write_bytes(b"theirs")
    for _ in range(2):  # it is not ours the second time either
        assert write(FIRST, tmp_path).left == ("best.html",)
        assert without_list(tmp_path) == {**FIRST, "best.html": b"theirs"}


@pytest.mark.parametrize("path", ["../evil.html", "/etc/evil", "a/../b.html", "a//b.html", "", LIST, "a\\b"])
def test_a_path_out_of_the_folder_is_refused(tmp_path: Path, path: str) -> None:
    with pytest.raises(ValueError, match=r"inside the site|our own list"):
        write({path: b"x"}, tmp_path / "site")


@pytest.mark.parametrize(
    "text",
    [
        '{"files": {"../victim.txt": "%s"}}' % ("0" * 64),
        '{"files": {"index.html": "0"}}',
        '{"files": ["index.html"]}',
        '{"files": {}, "underway": 3}',
        "{" * 100_000,
        "A heading.\n" + "0" * 64 + "  ../victim.txt\n",
        "A heading.\n" + "0" * 64 + "  best\nvictim.txt.html\n",
        "A heading.\nvictim.txt\n",
    ],
)
def test_a_list_that_is_not_quite_ours_is_believed_in_nothing(tmp_path: Path, text: str) -> None:
    victim = tmp_path / "victim.txt"
    victim.write_bytes(b"dear")
    out = tmp_path / "site"
    write(FIRST, out)
    (out / LIST).write_text(text, encoding="utf-8")
    before = on_disk(out)
    with pytest.raises(NotOurs, match="damaged"):
        write({"index.html": b"two"}, out)
    assert (victim.read_bytes(), on_disk(out)) == (b"dear", before)


def old_list(files: dict[str, bytes]) -> str:
    return "A heading.\n" + "".join(f"{sha256(data).hexdigest()}  {path}\n" for path, data in sorted(files.items()))


def test_a_list_as_it_was_first_written_is_read_and_becomes_the_new_one(tmp_path: Path) -> None:
    write(FIRST, tmp_path)
    (tmp_path / LIST).write_text(old_list(FIRST), encoding="utf-8")
    assert write({"index.html": b"two"}, tmp_path) == Written(new=0, changed=1, same=0, removed=3)
    assert list(json.loads((tmp_path / LIST).read_text("utf-8"))["files"]) == ["index.html"]


@pytest.mark.parametrize("listed", [sha256(b"a page").hexdigest(), "0" * 64])
def test_nothing_is_removed_or_overwritten_on_the_word_of_a_list_alone(tmp_path: Path, listed: str) -> None:
    """A line that a stranger has brought into the list names a file that we never wrote."""
    write(FIRST, tmp_path)
    (tmp_path / "notes.txt").write_bytes(b"years of work")
    files = json.loads((tmp_path / LIST).read_text("utf-8"))["files"] | {"notes.txt": listed}
    (tmp_path / LIST).write_text(json.dumps({"files": files}), encoding="utf-8")
    assert write(FIRST, tmp_path).left == ("notes.txt",)
    assert write({**FIRST, "notes.txt": b"ours"}, tmp_path).left == ("notes.txt",)
    assert (tmp_path / "notes.txt").read_bytes() == b"years of work"


def test_a_page_that_somebody_changed_is_left_and_named_whether_it_is_still_made_or_not(tmp_path: Path) -> None:
    write(FIRST, tmp_path)
    (tmp_path / "best.html").write_bytes(b"corrected by hand")
    (tmp_path / "best" / "card.html").write_bytes(b"corrected by hand")
    second = {"index.html": b"two", "best.html": b"new", "style.css": b"css"}
    assert write(second, tmp_path) == Written(0, 1, 1, 0, left=("best.html", "best/card.html"))
    kept = {"best.html": b"corrected by hand", "best/card.html": b"corrected by hand"}
    assert without_list(tmp_path) == {**second, **kept}
    assert write(second, tmp_path).left == ("best.html",)  # and the other is nobody's business any more
    (tmp_path / "best.html").unlink()
    assert write(second, tmp_path) == Written(new=1, changed=0, same=2, removed=0)


@pytest.mark.parametrize("path", ["best.html", "best"])
def test_a_folder_or_a_file_in_the_way_is_left_and_named(tmp_path: Path, path: str) -> None:
    write({"index.html": b"one"}, tmp_path)
    if path == "best":
        (tmp_path / path).write_bytes(b"theirs")
    else:
        (tmp_path / path).mkdir()
    assert write(FIRST, tmp_path).left == ("best.html" if path == "best.html" else "best/card.html",)
    assert (tmp_path / path).exists()


def test_a_folder_that_is_a_link_to_elsewhere_is_not_written_through(tmp_path: Path) -> None:
    out, elsewhere = tmp_path / "site", tmp_path / "elsewhere"
    elsewhere.mkdir()
    write({"index.html": b"one"}, out)
    (out / "best").symlink_to(elsewhere, target_is_directory=True)
    with pytest.raises(NotOurs, match="leads elsewhere"):
        write(FIRST, out)
    assert not list(elsewhere.iterdir())


class Killed(BaseException):
    pass


SECOND = {"index.html": b"two", "best.html": b"best", "stout.html": b"stout", "stout/card.html": b"card"}
TOUCHING = ("mkdir", "open", "chmod", "replace", "unlink", "rmdir", "write")


def _killed(files: dict[str, bytes], out: Path, after: int, monkeypatch: pytest.MonkeyPatch) -> bool:
    """Whether the run was killed before its call number ``after`` that touches the disk: from there on none is made."""
    done = 0

    def counted(call: Any) -> Any:
        def act(*words: Any, **more: Any) -> Any:
            nonlocal done
            done += 1
            if done > after:
                raise Killed
            return call(*words, **more)

        return act

    with monkeypatch.context() as patch:
        for name in TOUCHING:
            patch.setattr(os, name, counted(getattr(os, name)))
        patch.setattr(writing, "open", lambda opened, mode: _Through(opened), raising=False)
        try:
            write(files, out)
        except Killed:
            return True
    return False


class _Through:
    """A file whose every half is a write of its own."""

    def __init__(self, opened: int) -> None:
        self._opened = opened

    def __enter__(self) -> _Through:
        return self

    def __exit__(self, *_: object) -> None:
        os.close(self._opened)

    def write(self, data: bytes) -> None:
        os.write(self._opened, data[: len(data) // 2])
        os.write(self._opened, data[len(data) // 2 :])


def everything(out: Path) -> dict[str, bytes | None]:
    return {p.relative_to(out).as_posix(): None if p.is_dir() else p.read_bytes() for p in sorted(out.rglob("*"))}


@pytest.mark.parametrize("first", [{}, FIRST], ids=["new", "there"])
@pytest.mark.parametrize("then", [SECOND, {"index.html": b"three"}, FIRST], ids=["again", "less", "back"])
def test_a_run_killed_at_any_moment_leaves_nothing_for_good(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, first: dict[str, bytes], then: dict[str, bytes]
) -> None:
    """Each file is then old or new, and the next run leaves what a run in an empty folder makes, and nothing else."""
    write(then, tmp_path / "fresh")
    moment = 0
    while True:
        out = tmp_path / str(moment)
        if first:
            write(first, out)
        if not _killed(SECOND, out, moment, monkeypatch):
            break
        for path, data in on_disk(out).items() if out.exists() else ():
            assert path == LIST or path.startswith(DRAFTS) or data in (first.get(path), SECOND.get(path))
        assert write(then, out).left == ()
        assert everything(out) == everything(tmp_path / "fresh")
        moment += 1
    assert moment >= 30


@pytest.mark.slow
def test_a_run_that_is_really_killed_leaves_nothing_for_good(tmp_path: Path) -> None:
    many = {f"beers/{number}.html": bytes([number % 256]) * 40_000 for number in range(400)}
    less = {path: data[::-1] + b"!" for path, data in many.items() if path.endswith(("1.html", "2.html"))}
    write(less, tmp_path / "fresh")
    code = (
        "import sys\nfrom pathlib import Path\nfrom gristbook.site.disk.write import write\n"
        "many = {f'beers/{n}.html': bytes([n % 256]) * 40_000 for n in range(400)}\n"
        "print('ready', flush=True)\nwrite(many, Path(sys.argv[1]))\n"
    )
    cut = 0
    for wait in range(12):
        out = tmp_path / str(wait)
        ran = subprocess.Popen([sys.executable, "-c", code, str(out)], stdout=subprocess.PIPE)
        assert ran.stdout is not None
        ran.stdout.readline()
        time.sleep(wait * 0.004)
        ran.kill()
        ran.wait()
        ran.stdout.close()
        cut += ran.returncode != 0
        write(less, out)
        assert everything(out) == everything(tmp_path / "fresh")
    assert cut


@pytest.mark.parametrize("moment", [1, 2, 3, 5, 8, 13])
def test_a_full_disk_leaves_no_draft_and_the_next_run_ends_well(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, moment: int
) -> None:
    calls = 0

    def full(*words: Any) -> Any:
        nonlocal calls
        calls += 1
        if calls >= moment:
            raise OSError(errno.ENOSPC, "No space left on device")
        return os.fdopen(words[0], words[1])

    out = tmp_path / "site"
    write(FIRST, out)
    with monkeypatch.context() as patch:
        patch.setattr(writing, "open", full, raising=False)
        if moment <= 3:
            with pytest.raises(OSError, match="No space"):
                write(SECOND, out)
        else:
            with suppress(OSError):
                write(SECOND, out)
    assert not (out / DRAFTS).exists()
    assert write(SECOND, out).left == ()
    assert without_list(out) == SECOND


@pytest.mark.parametrize("name", [LIST, DRAFTS])
def test_a_list_or_a_folder_of_drafts_that_is_a_link_is_not_followed(tmp_path: Path, name: str) -> None:
    out, elsewhere = tmp_path / "site", tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "notes.txt").write_bytes(b"dear")
    write({"index.html": b"one"}, out)
    (out / name).unlink(missing_ok=True)
    (out / name).symlink_to(elsewhere / "list" if name == LIST else elsewhere)
    with pytest.raises(NotOurs, match="leads elsewhere"):
        write(FIRST, out)
    assert on_disk(elsewhere) == {"notes.txt": b"dear"}


def test_a_draft_is_cleared_away_when_the_disk_refuses(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise OSError("disk full")

    monkeypatch.setattr(os, "replace", refuse)
    with pytest.raises(OSError, match="disk full"):
        write(FIRST, tmp_path)
    assert not list(tmp_path.rglob("*"))


def test_the_list_is_sorted_and_the_same_for_the_same_files(tmp_path: Path) -> None:
    write(dict(reversed(FIRST.items())), tmp_path / "a")
    write(FIRST, tmp_path / "b")
    first, second = ((tmp_path / name / LIST).read_text(encoding="utf-8") for name in "ab")
    assert first == second
    assert list(json.loads(first)["files"]) == sorted(FIRST)
