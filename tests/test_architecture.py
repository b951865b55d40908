"""The plan of the house: which room may import which, where the heavy libraries live, and how long a thing may be."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import gristbook

HOUSE = Path(gristbook.__file__).parent
FILES = sorted(HOUSE.rglob("*.py"))

ABOVE_SITE = {
    "problems",
    "refusal",
    "equations",
    "sheet",
    "reading",
    "pantry",
    "model",
    "text",
    "targets",
    "charts",
}
ROOMS: dict[str, set[str]] = {
    "__init__": set(),
    "__main__": {"cli"},
    "problems": set(),
    "refusal": set(),
    "equations": {"refusal"},
    "sheet": {"problems", "refusal", "equations.registry", "equations.bounds"},
    "reading": {"problems"},
    "pantry": {"problems", "reading"},
    "model": {"problems", "sheet"},
    "text": {"problems", "refusal", "reading", "pantry", "sheet", "model"},
    "targets": {"problems", "refusal", "model", "equations", "pantry", "sheet"},
    "charts": set(),
    "site": ABOVE_SITE,
    "cli": {*ABOVE_SITE, "site"},
}
"""What each room may import of ours besides itself and the package's version."""

LIBRARIES: dict[str, set[str]] = {
    "yaml": {"reading/tree.py"},
    "matplotlib": {"charts"},
    "jinja2": {"site"},
    "markdown_it": {"site"},
    "markupsafe": {"site"},  # jinja2's own
    "PIL": {"site/album.py"},  # matplotlib's own
}
"""The one place of each library that is not Python's own."""

LONGEST_FILE, LONGEST_FUNCTION = 320, 50
PLAN = "The table of rooms in the plan of the house says what a room may import: "


def short(file: Path) -> str:
    return file.relative_to(HOUSE).as_posix()


def tree_of(file: Path) -> ast.Module:
    return ast.parse(file.read_text("utf-8"), str(file))


def imports(file: Path) -> Iterator[str]:
    """Every module that a file names in an import, wherever the import stands, and every name taken from a package."""
    for node in ast.walk(tree_of(file)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{short(file)}: imports are written out in full"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def room_of(file: Path) -> str:
    return file.relative_to(HOUSE).parts[0].removesuffix(".py")


@pytest.mark.parametrize("file", FILES, ids=short)
def test_a_room_imports_only_what_the_plan_lets_it(file: Path) -> None:
    room = room_of(file)
    allowed = ROOMS[room] | {room}
    for name in imports(file):
        library, _, ours = name.partition(".")
        if library != "gristbook" or ours in ("", "__version__"):
            continue
        assert any(f"{ours}.".startswith(f"{part}.") for part in allowed), f"{PLAN}{short(file)} imports {name}"


@pytest.mark.parametrize("file", FILES, ids=short)
def test_a_library_lives_in_its_one_place(file: Path) -> None:
    known = sys.stdlib_module_names | {"gristbook"}
    for name in imports(file):
        library = name.partition(".")[0]
        if library in known:
            continue
        assert library in LIBRARIES, f"{short(file)} imports {library}"
        assert {short(file), room_of(file)} & LIBRARIES[library], f"{short(file)} imports {library}"


@pytest.mark.parametrize("file", FILES, ids=short)
def test_nothing_keeps_figures_in_a_global_register(file: Path) -> None:
    assert "pyplot" not in file.read_text("utf-8")


@pytest.mark.parametrize("file", [file for file in FILES if room_of(file) not in ("cli", "__main__")], ids=short)
def test_only_the_command_line_prints_or_sets_an_exit_status(file: Path) -> None:
    for node in ast.walk(tree_of(file)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            assert node.func.id not in ("print", "exit", "quit", "input"), f"{short(file)}:{node.lineno}"
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "sys":
            assert node.attr not in ("exit", "stdout", "stderr"), f"{short(file)}:{node.lineno}"
        assert not (isinstance(node, ast.Name) and node.id == "SystemExit"), f"{short(file)}:{node.lineno}"


@pytest.mark.parametrize("file", FILES, ids=short)
def test_a_file_is_one_room_and_a_function_one_thought(file: Path) -> None:
    text = file.read_text("utf-8")
    does = any(isinstance(node, ast.FunctionDef | ast.ClassDef) for node in ast.walk(tree_of(file)))
    assert len(text.splitlines()) <= LONGEST_FILE or not does  # a table of data, as the bibliography, may be long
    for node in ast.walk(tree_of(file)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            assert length(node) <= LONGEST_FUNCTION, f"{short(file)}:{node.lineno} {node.name}"


def length(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines from `def` to the end, the docstring left out: it is a data sheet, as long as it needs to be."""
    first = function.body[0]
    docstring = 0
    if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant) and isinstance(first.value.value, str):
        docstring = (first.end_lineno or first.lineno) - first.lineno + 1
    return (function.end_lineno or function.lineno) - function.lineno + 1 - docstring


def test_every_room_of_the_plan_is_there_and_no_other() -> None:
    assert {room_of(file) for file in FILES} == set(ROOMS)


def loaded_after(code: str, *modules: str) -> set[str]:
    """Which of ``modules`` a fresh Python has loaded after some code."""
    ask = f"{code}\nimport sys\nsys.stderr.write(' '.join(m for m in {modules!r} if m in sys.modules))"
    ran = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True, timeout=120)
    return set(ran.stderr.split())


def test_the_check_of_what_is_loaded_can_see_it() -> None:
    assert loaded_after("import pint", "pint", "yaml") == {"pint"}


def test_the_command_line_loads_nothing_heavy_before_it_knows_the_command() -> None:
    heavy = ("pint", "yaml", "jinja2", "matplotlib", "markdown_it", "numpy")
    assert loaded_after("import gristbook.cli", *heavy) == set()


def test_checking_a_book_loads_nothing_that_draws_or_makes_pages(tmp_path: Path) -> None:
    (tmp_path / "book.yaml").write_text("title: A book\naddress: https://example.org/\n", "utf-8")
    code = f"from gristbook.cli import main\nassert main(['check', {str(tmp_path)!r}]) == 0"
    assert loaded_after(code, "yaml", "pint", "jinja2", "matplotlib", "PIL") == {"yaml"}


ASK_A_NAME = {
    *("targets/doses.py", "targets/gas_words.py", "targets/water_rows.py", "targets/batches/learn.py"),
    *("targets/alternatives.py", "targets/method_cellar.py", "targets/editions/swap.py", "targets/method_step.py"),
    *("targets/plan.py", "targets/batches/brewed.py"),
}
"""What looks for a word in the name of a thing, or writes one small in a sentence."""


@pytest.mark.parametrize("file", [file for file in FILES if room_of(file) in ("targets", "cli")], ids=short)
def test_below_text_nobody_takes_apart_what_an_author_wrote(file: Path) -> None:
    tree = ast.parse(file.read_text("utf-8"))
    asked = {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)} & {"casefold", "lower"}
    asked |= {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names} & {"re"}
    assert not asked or short(file) in ASK_A_NAME
