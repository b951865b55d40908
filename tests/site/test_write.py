"""Writing to disk: nothing is lost that is not ours, nothing is half-written, and a crash is mended by the next run."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from gristbook.site import write as writing
from gristbook.site.write import MANIFEST, NotOurs, Written, write

FIRST = {"index.html": b"one", "best.html": b"best", "best/card.html": b"card", "style.css": b"css"}


def on_disk(out: Path) -> dict[str, bytes]:
    return {p.relative_to(out).as_posix(): p.read_bytes() for p in sorted(out.rglob("*")) if p.is_file()}


def without_list(out: Path) -> dict[str, bytes]:
    return {path: data for path, data in on_disk(out).items() if path != MANIFEST}


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


def test_somebody_elses_file_where_a_page_should_go_is_refused_and_nothing_is_written(tmp_path: Path) -> None:
    write({"index.html": b"one"}, tmp_path)
    (tmp_path / "best.html").write_bytes(b"theirs")
    before = on_disk(tmp_path)
    with pytest.raises(NotOurs, match=r"best\.html"):
        write(FIRST, tmp_path)
    assert on_disk(tmp_path) == before


@pytest.mark.parametrize("path", ["../evil.html", "/etc/evil", "a/../b.html", "a//b.html", "", MANIFEST, "a\\b"])
def test_a_path_out_of_the_folder_is_refused(tmp_path: Path, path: str) -> None:
    with pytest.raises(ValueError, match=r"inside the site|our own list"):
        write({path: b"x"}, tmp_path / "site")


def test_a_list_that_names_a_file_outside_removes_nothing(tmp_path: Path) -> None:
    victim = tmp_path / "victim.txt"
    victim.write_bytes(b"dear")
    out = tmp_path / "site"
    write(FIRST, out)
    listed = (out / MANIFEST).read_text(encoding="utf-8")
    (out / MANIFEST).write_text(listed + f"{'0' * 64}  ../victim.txt\n", encoding="utf-8")
    with pytest.raises(NotOurs, match="damaged"):
        write({"index.html": b"two"}, out)
    assert victim.read_bytes() == b"dear"


def test_a_folder_that_is_a_link_to_elsewhere_is_not_written_through(tmp_path: Path) -> None:
    out, elsewhere = tmp_path / "site", tmp_path / "elsewhere"
    elsewhere.mkdir()
    write({"index.html": b"one"}, out)
    (out / "best").symlink_to(elsewhere, target_is_directory=True)
    with pytest.raises(NotOurs, match="leads out"):
        write(FIRST, out)
    assert not list(elsewhere.iterdir())


def test_a_run_that_is_cut_off_anywhere_is_mended_by_the_next(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Cut off before each single write or removal: each file is then old or new, and the next run ends well."""
    second = {"index.html": b"two", "best.html": b"best", "stout.html": b"stout", "stout/card.html": b"card"}
    steps = 0
    while True:
        out = tmp_path / str(steps)
        write(FIRST, out)
        if _cut_off(second, out, steps, monkeypatch):
            break
        for path, data in without_list(out).items():
            assert data in (FIRST.get(path), second.get(path))
        write(second, out)
        assert without_list(out) == second
        steps += 1
    assert steps >= 6


def test_a_first_run_that_is_cut_off_is_mended_by_the_next(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for steps in range(1, 5):
        out = tmp_path / str(steps)
        assert not _cut_off(FIRST, out, steps, monkeypatch)
        write(FIRST, out)
        assert without_list(out) == FIRST


class Cut(Exception):
    pass


def _cut_off(files: dict[str, bytes], out: Path, after: int, monkeypatch: pytest.MonkeyPatch) -> bool:
    """Whether the run came to its end in no more than so many writes and removals."""
    done = 0

    def counted(action):  # type: ignore[no-untyped-def]
        def act(*args):  # type: ignore[no-untyped-def]
            nonlocal done
            if done == after:
                raise Cut
            done += 1
            return action(*args)

        return act

    with monkeypatch.context() as patch:
        patch.setattr(writing, "_replace", counted(writing._replace))
        patch.setattr(writing, "_remove", counted(writing._remove))
        try:
            write(files, out)
        except Cut:
            return False
    return True


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
    first, second = ((tmp_path / name / MANIFEST).read_text(encoding="utf-8") for name in "ab")
    assert first == second
    paths = [line.partition("  ")[2] for line in first.splitlines()[1:]]
    assert paths == sorted(FIRST)
