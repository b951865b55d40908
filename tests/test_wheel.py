"""The wheel is all that a reader of a book needs: installed alone, away from the checkout, it builds one."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from zipfile import ZipFile

import pytest
import the_demo

from gristbook.site.disk.write import write

ROOT = Path(__file__).parents[1]
pytestmark = pytest.mark.slow


@dataclass(frozen=True, slots=True)
class Installed:
    """A wheel, the empty environment it was installed into, and the site it built there."""

    wheel: Path
    python: Path
    folder: Path
    site: Path


def run(*words: str | Path, cwd: Path) -> str:
    """What a command prints; its complaint, if it fails. Nothing of this process's Python leaks into it."""
    environment = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "VIRTUAL_ENV"))}
    done = subprocess.run([*map(str, words)], cwd=cwd, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"{' '.join(map(str, words))}\n{done.stdout}\n{done.stderr}"
    return done.stdout


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Installed:
    away = tmp_path_factory.mktemp("away")
    run(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", away / "dist", ROOT, cwd=away)
    (wheel,) = (away / "dist").glob("*.whl")
    run(sys.executable, "-m", "venv", away / "venv", cwd=away)
    python = away / "venv" / "bin" / "python"
    run(python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", wheel, cwd=away)
    book = shutil.copytree(ROOT / "recipes", away / "book", ignore=shutil.ignore_patterns(".gristbook"))
    run(python.with_name("gristbook"), "build", book, cwd=away)
    return Installed(wheel, python, away, away / "site")


def test_the_wheel_holds_the_package_the_pantry_and_the_themes_and_nothing_else(installed: Installed) -> None:
    with ZipFile(installed.wheel) as archive:
        names = set(archive.namelist())
    for folder in ("generator/gristbook", "themes"):
        inside = folder.replace("generator/gristbook", "gristbook").replace("themes", "gristbook/themes")
        for path in (ROOT / folder).rglob("*"):
            if path.is_file() and "__pycache__" not in path.parts:
                assert f"{inside}/{path.relative_to(ROOT / folder).as_posix()}" in names
    assert {name.split("/")[0].partition("-")[0] for name in names} == {"gristbook"}
    assert any(name.endswith("licenses/LICENSE") for name in names)


def test_the_package_comes_from_the_environment_and_not_from_the_checkout(installed: Installed) -> None:
    where = run(installed.python, "-c", "import gristbook; print(gristbook.__file__)", cwd=installed.folder).strip()
    assert Path(where).is_relative_to(installed.folder / "venv")


def test_the_wheel_has_the_manual(installed: Installed) -> None:
    run(installed.python.with_name("gristbook"), "manual", "my-manual", cwd=installed.folder)
    assert (installed.folder / "my-manual" / "learning" / "first-book.html").is_file()


def test_the_wheel_builds_the_book_that_the_checkout_builds(installed: Installed, demo_site: the_demo.Site) -> None:
    here = installed.folder / "from-the-checkout"
    write(demo_site.files, here)
    run(sys.executable, ROOT / "tests" / "demo" / "compare.py", here, installed.site, cwd=installed.folder)


def test_no_page_knows_where_it_was_built(installed: Installed) -> None:
    pages = [path for path in installed.site.rglob("*") if path.is_file()]
    assert len(pages) > 3 * len(list((ROOT / "recipes").glob("*.md")))
    for path in pages:
        words = path.read_bytes()
        for place in (installed.folder, ROOT, Path.home(), Path("site-packages")):
            assert str(place).encode() not in words, f"{path.name} names {place}"
