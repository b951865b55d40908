"""Frames: drawn once, kept, found again, and never trusted blindly."""

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import pytest

from gristbook.charts import balance, balance_frame, bars
from gristbook.charts import frame as frames
from gristbook.charts.caches import FolderCache, MemoryCache, users_cache
from gristbook.charts.frame import Frame, frame_key, kept_frame

HERE = str(Path(__file__).parent)
DRAW_ALL = f"""
import sys
sys.path.insert(0, {HERE!r})
from pathlib import Path
from conftest import draw_all
from gristbook.charts.caches import FolderCache
charts = draw_all(FolderCache(Path(sys.argv[1])))
"""
HASHED = "import hashlib; print(hashlib.sha256(''.join(charts.values()).encode()).hexdigest())"
LOADED = "print(sorted(name for name in sys.modules if name.split('.')[0] in ('matplotlib', 'numpy')))"


def run(code: str, folder: Path, seed: str) -> str:
    return subprocess.run(
        [sys.executable, "-c", code, str(folder)],
        env={**os.environ, "PYTHONHASHSEED": seed},
        check=True,
        capture_output=True,
        text=True,
    ).stdout.strip()


def test_two_processes_draw_the_same_bytes_and_the_second_use_of_a_cache_loads_no_matplotlib(tmp_path):
    first = run(DRAW_ALL + HASHED, tmp_path / "a", "1")
    assert first == run(DRAW_ALL + HASHED, tmp_path / "b", "2")
    assert first == run(DRAW_ALL + HASHED, tmp_path / "a", "3")
    assert run(DRAW_ALL + LOADED, tmp_path / "a", "4") == "[]"
    assert "'matplotlib.figure'" in run(DRAW_ALL + LOADED, tmp_path / "c", "4")
    kept = {path.name: path.read_bytes() for path in (tmp_path / "a").iterdir()}
    assert kept == {path.name: path.read_bytes() for path in (tmp_path / "b").iterdir()}


def test_importing_the_room_loads_no_matplotlib():
    code = "import sys, gristbook.charts; " + LOADED
    assert subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout == "[]\n"


def test_pyplot_is_never_loaded(tmp_path):
    assert run(DRAW_ALL + "print('matplotlib.pyplot' in sys.modules)", tmp_path, "0") == "False"


def test_settings_of_whoever_draws_do_not_show(cache, draw):
    import matplotlib

    with matplotlib.rc_context():
        matplotlib.rcParams["axes.labelsize"] = 40
        matplotlib.rcParams["lines.linestyle"] = "--"
        assert draw(MemoryCache()) == draw(cache)
        assert matplotlib.rcParams["axes.labelsize"] == 40


def test_a_key_changes_with_the_data_the_drawing_and_the_version(monkeypatch):
    data = {"kind": "hops", "rows": 2, "end": 40}
    keys = {frame_key(bars.draw_frame, **data), frame_key(bars.draw_frame, **data)}
    assert len(keys) == 1
    keys.add(frame_key(bars.draw_frame, **{**data, "rows": 3}))
    keys.add(frame_key(balance_frame.draw_frame, **data))
    monkeypatch.setattr(frames, "version", lambda package: "0.0")
    frames._code.cache_clear()
    keys.add(frame_key(bars.draw_frame, **data))
    monkeypatch.undo()
    frames._code.cache_clear()
    assert len(keys) == 4


@pytest.mark.parametrize("module", ["bars", "frame", "drawing", "tidy", "marks", "placing"])
def test_a_key_changes_with_the_source_of_whatever_decides_the_looks(monkeypatch, module):
    before = frame_key(bars.draw_frame, rows=2)
    real = frames.inspect.getsource
    touched = f"gristbook.charts.{module}"
    monkeypatch.setattr(frames.inspect, "getsource", lambda m: real(m) + ("#" if m.__name__ == touched else ""))
    frames._code.cache_clear()
    try:
        assert frame_key(bars.draw_frame, rows=2) != before
    finally:
        frames._code.cache_clear()


def test_a_frame_is_drawn_once_for_many_beers(cache, monkeypatch):
    drawn = []
    monkeypatch.setattr(balance, "draw_frame", real_draw_counted(drawn))
    fresh = MemoryCache()
    for gravity in (1.040, 1.050, 1.060):
        balance.balance_chart(
            name="x", title="t", gravity=(gravity,) * 3, bitterness=(20.0,) * 3, style=None, cache=fresh
        )
    assert drawn == [{"words": "outer"}]


def real_draw_counted(drawn):
    def draw_frame(**data):
        drawn.append(data)
        return balance_frame.draw_frame(**data)

    draw_frame.__module__ = balance_frame.__name__
    return draw_frame


@pytest.mark.parametrize(
    "damage", ["", "{", "[]", "null", '{"svg": "<svg/>", "x": {}, "y": {}}', '{"svg": 3}', "\ufffd"]
)
def test_a_damaged_frame_is_drawn_again(damage):
    fresh = MemoryCache()
    whole = kept_frame(balance_frame.draw_frame, fresh, words="outer")
    (key,) = fresh
    fresh[key] = damage
    assert kept_frame(balance_frame.draw_frame, fresh, words="outer") == whole
    assert Frame.from_text(fresh[key]) == whole


def test_a_folder_keeps_whole_files_only(tmp_path, monkeypatch):
    folder = FolderCache(tmp_path / "charts")
    assert folder.get("k") is None
    folder["k"] = "first"
    folder["k"] = "grüner"
    assert folder.get("k") == "grüner"
    monkeypatch.setattr(os, "replace", refuse)
    folder["k"] = "third"
    assert folder.get("k") == "grüner"
    monkeypatch.undo()
    folder["k"] = "fourth"
    assert [path.name for path in (tmp_path / "charts").iterdir()] == ["k.json"]
    assert folder.get("k") == "fourth"


def test_a_folder_that_cannot_be_written_costs_a_drawing_and_no_book(tmp_path):
    (tmp_path / "charts").write_bytes(b"a file")
    folder = FolderCache(tmp_path / "charts")
    folder["k"] = "text"
    assert folder.get("k") is None


@pytest.mark.parametrize(
    ("platform", "said", "where"),
    [
        ("linux", {"XDG_CACHE_HOME": "/var/kept"}, "/var/kept/gristbook"),
        ("linux", {"XDG_CACHE_HOME": "kept"}, "/home/maud/.cache/gristbook"),  # "relative … must be ignored", says XDG
        ("linux", {}, "/home/maud/.cache/gristbook"),
        ("darwin", {}, "/home/maud/Library/Caches/gristbook"),
        ("win32", {"LOCALAPPDATA": "/local"}, "/local/gristbook/cache"),
        ("linux", {"GRISTBOOK_CACHE": "here", "XDG_CACHE_HOME": "/var/kept"}, "here"),
    ],
)
def test_frames_are_kept_where_the_system_has_its_users_caches(monkeypatch, platform, said, where):
    """XDG Base Directory Specification 0.8; Apple, File System Programming Guide; Microsoft, KNOWNFOLDERID."""
    for name in ("GRISTBOOK_CACHE", "XDG_CACHE_HOME", "LOCALAPPDATA"):
        monkeypatch.delenv(name, raising=False)
    for name, value in {"HOME": "/home/maud", **said}.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(sys, "platform", platform)
    assert users_cache() == Path(where)


def refuse(*args):
    raise OSError("full")


def test_a_kept_file_of_the_wrong_kind_is_no_crash(tmp_path):
    folder = FolderCache(tmp_path)
    (tmp_path / "k.json").write_bytes(b"\xff\xfe\x00")
    assert Frame.from_text(folder.get("k")) is None


def test_the_scales_say_where_matplotlib_put_its_marks(elements):
    """The figures that matplotlib itself wrote beside its axes are the witness."""
    frame = balance_frame.draw_frame(words="outer")
    across = {e.text: float(e.get("x")) for e in elements(frame.svg, "text", text_anchor="middle")}
    assert across == {f"{g:.3f}": pytest.approx(frame.x.at(g), abs=0.01) for g in balance_frame.GRAVITIES}
    upwards = [float(e.get("y")) for e in elements(frame.svg, "use") if float(e.get("x")) == frame.x.start]
    assert upwards == [pytest.approx(frame.y.at(b), abs=0.01) for b in balance_frame.BITTERNESSES]


def test_a_scale_holds_what_lies_beyond_it():
    scale = replace(balance_frame.draw_frame(words="inner").y)
    assert [scale.held(v) for v in (-5, 50, 500)] == [scale.at(v) for v in (0, 50, 90)]
    assert scale.at(scale.low) == scale.start
    assert scale.at(scale.high) == scale.end


def test_a_frame_says_nothing_of_one_beer(elements):
    frame = balance_frame.draw_frame(words="outer")
    assert ElementTree.fromstring(frame.svg).get("aria-labelledby") == "@name@-title"
    assert not elements(frame.svg, "title")
