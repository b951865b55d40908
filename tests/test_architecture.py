"""The plan of the house: which room may import which, where the heavy libraries live, and how long a thing may be."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

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
    "__init__": {"interface"},
    "hands": set(),
    "built": {"problems", "charts", "site"},
    "again": {*ABOVE_SITE, "site"},
    "building": {"problems", "charts", "model", "site", "again", "built", "hands"},
    "interface": {*ABOVE_SITE, "site", "built", "building"},
    "lend": {"building"},
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
    "preview": {*ABOVE_SITE, "site", "interface", "built"},
    "cli": {*ABOVE_SITE, "site", "interface", "built", "preview"},
}
"""What each room may import of ours besides itself and the package's version."""

LIBRARIES: dict[str, set[str]] = {
    "yaml": {"reading/tree.py"},
    "matplotlib": {"charts"},
    "jinja2": {"site"},
    "markdown_it": {"site"},
    "markupsafe": {"site"},  # jinja2's own
    "weasyprint": {"site/book/paper.py"},
    "shtab": {"cli/completion.py"},
    "tqdm": {"cli/progress.py"},
    "watchfiles": {"preview/watching.py"},
    "PIL": {"site/album.py"},  # matplotlib's own
}
"""The one place of each library that is not Python's own."""

LONGEST_FILE, LONGEST_FUNCTION = 320, 50
PLAN = "The table of rooms in the plan of the house says what a room may import: "


def short(file: Path) -> str:
    return file.relative_to(HOUSE).as_posix()


@cache
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


def test_a_room_imports_only_what_the_plan_lets_it() -> None:
    beyond = [f"{short(file)} imports {name}" for file in FILES for name in imports(file) if not lets(file, name)]
    assert beyond == [], PLAN


def lets(file: Path, name: str) -> bool:
    library, _, ours = name.partition(".")
    room = room_of(file)
    allowed = ROOMS[room] | {room}
    return (
        library != "gristbook"
        or ours in ("", "__version__")
        or any(f"{ours}.".startswith(f"{part}.") for part in allowed)
    )


def test_a_library_lives_in_its_one_place() -> None:
    known = sys.stdlib_module_names | {"gristbook"}
    for file in FILES:
        for library in {name.partition(".")[0] for name in imports(file)} - known:
            assert library in LIBRARIES, f"{short(file)} imports {library}"
            assert {short(file), room_of(file)} & LIBRARIES[library], f"{short(file)} imports {library}"


def test_nothing_keeps_figures_in_a_global_register() -> None:
    assert [short(file) for file in FILES if "pyplot" in file.read_text("utf-8")] == []


def test_only_the_command_line_prints_or_sets_an_exit_status() -> None:
    for file in (file for file in FILES if room_of(file) not in ("cli", "__main__", "lend")):
        for node in ast.walk(tree_of(file)):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in ("print", "exit", "quit", "input"), f"{short(file)}:{node.lineno}"
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "sys":
                assert node.attr not in ("exit", "stdout", "stderr"), f"{short(file)}:{node.lineno}"
            assert not (isinstance(node, ast.Name) and node.id == "SystemExit"), f"{short(file)}:{node.lineno}"


def test_a_file_is_one_room_and_a_function_one_thought() -> None:
    long = []
    for file in FILES:
        nodes = list(ast.walk(tree_of(file)))
        does = any(isinstance(node, ast.FunctionDef | ast.ClassDef) for node in nodes)
        if len(file.read_text("utf-8").splitlines()) > LONGEST_FILE and does:
            long.append(short(file))  # a table of data, as the bibliography, may be long
        functions = (node for node in nodes if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef))
        long += [f"{short(file)}:{it.lineno} {it.name}" for it in functions if length(it) > LONGEST_FUNCTION]
    assert long == []


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
    heavy = ("pint", "yaml", "jinja2", "matplotlib", "markdown_it", "numpy", "watchfiles", "http.server")
    assert loaded_after("import gristbook.cli", *heavy) == set()


def test_checking_a_book_loads_nothing_that_draws_or_makes_pages(tmp_path: Path) -> None:
    (tmp_path / "book.yaml").write_text("title: A book\naddress: https://example.org/\n", "utf-8")
    code = f"from gristbook.cli import main\nassert main(['check', {str(tmp_path)!r}]) == 0"
    assert loaded_after(code, "yaml", "pint", "jinja2", "matplotlib", "PIL", "watchfiles") == {"yaml"}


ASK_A_NAME = {
    *("targets/advice/doses.py", "targets/advice/gas_words.py", "targets/water/rows.py", "targets/batches/learn.py"),
    *(
        "targets/buying/alternatives.py",
        "targets/method/cellar.py",
        "targets/editions/swap.py",
        "targets/method/step.py",
    ),
    *("targets/plan.py", "targets/blame.py", "targets/batches/brewed.py"),
    *("targets/advice/grist_figures.py", "targets/advice/process_figures.py"),
}
"""What looks for a word in the name of a thing, or writes one small in a sentence."""


def test_below_text_nobody_takes_apart_what_an_author_wrote() -> None:
    asking = []
    for file in (file for file in FILES if room_of(file) in ("targets", "cli")):
        nodes = list(ast.walk(tree_of(file)))
        asked = {node.attr for node in nodes if isinstance(node, ast.Attribute)} & {"casefold", "lower"}
        asked |= {alias.name for node in nodes if isinstance(node, ast.Import) for alias in node.names} & {"re"}
        if asked and short(file) not in ASK_A_NAME:
            asking.append(short(file))
    assert asking == []
