"""The tool that holds the committed demo to what its sources build notices what it should; `.ci/run` runs it."""

from __future__ import annotations

import importlib.util
import json
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]
PAGE = (
    '<h1>A beer</h1>\n<svg class="chart chart-balance" viewBox="0 0 640 440">'
    '<path d="M 10 20 L 30.5 40" fill="#102030"/><text x="5" y="6">50</text></svg>\n<p>24 IBU</p>\n'
)


@pytest.fixture(scope="module")
def compare() -> ModuleType:
    spec = importlib.util.spec_from_file_location("compare", Path(__file__).with_name("compare.py"))
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def site(folder: Path, page: str = PAGE, **more: str) -> Path:
    """A small site of one page, with its list."""
    folder.mkdir()
    files = {"beer.html": page, **{name.replace("_", "."): text for name, text in more.items()}}
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    listed = {name: sha256((folder / name).read_bytes()).hexdigest() for name in sorted(files)}
    (folder / ".gristbook").write_text(json.dumps({"files": listed}), encoding="utf-8")
    return folder


@pytest.fixture
def found(compare: ModuleType, tmp_path: Path) -> Callable[..., list[str]]:
    """What sets a site of this page apart from the one of `PAGE`."""

    def differences(page: str, **more: str) -> list[str]:
        return list(compare.differences(site(tmp_path / "old"), site(tmp_path / "new", page, **more)))

    return differences


@pytest.mark.parametrize(
    ("before", "after"),
    [
        pytest.param("24 IBU", "24 IBU", id="nothing"),
        pytest.param("L 30.5 40", "L 31.4 39.1", id="less-than-a-pixel"),
    ],
)
def test_what_another_matplotlib_may_do_is_no_difference(
    found: Callable[..., list[str]], before: str, after: str
) -> None:
    assert found(PAGE.replace(before, after)) == []


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        pytest.param("24 IBU", "25 IBU", "differs in line 3", id="a-figure"),
        pytest.param("<p>24 IBU</p>\n", "", "differs in line 3", id="a-lost-line"),
        pytest.param("L 30.5 40", "L 31.6 40", "chart 1: <path> d=", id="a-point-moved-by-more"),
        pytest.param("L 30.5 40", "L 30.5 40 L 1 1", "chart 1: <path> d=", id="one-more-point"),
        pytest.param("#102030", "#102031", "chart 1: <path> fill=", id="another-colour"),
        pytest.param(">50<", ">51<", 'chart 1: <text> "50" became', id="another-word"),
        pytest.param(' y="6"', "", "chart 1: <text> has other attributes: y", id="a-lost-attribute"),
        pytest.param('<text x="5" y="6">50</text>', "", "chart 1: <svg> holds 2 elements and now 1", id="a-lost-label"),
    ],
)
def test_whatever_else_changes_is_noticed(found: Callable[..., list[str]], before: str, after: str, said: str) -> None:
    assert before in PAGE
    (difference,) = found(PAGE.replace(before, after))
    assert difference.startswith(f"beer.html: {said}")


def test_a_file_too_many_or_too_few_is_noticed(found: Callable[..., list[str]]) -> None:
    assert found(PAGE, feed_xml="<feed/>") == ["feed.xml: is new"]


def test_a_list_that_does_not_tell_the_truth_is_noticed(compare: ModuleType, tmp_path: Path) -> None:
    old, new = site(tmp_path / "old"), site(tmp_path / "new")
    (new / "beer.html").write_text(PAGE.replace("L 30.5 40", "L 30.6 40"), encoding="utf-8")
    (difference,) = compare.differences(old, new)
    assert difference == f".gristbook: does not tell what {new} holds: beer.html"
