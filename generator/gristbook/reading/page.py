"""A Markdown file with YAML front matter: the two parts, each with its place."""

from dataclasses import dataclass

from gristbook.problems import Place, Problems
from gristbook.reading.tree import Table, is_text, read_yaml

FENCE = "---"


@dataclass(frozen=True, slots=True)
class Page:
    """The front matter as a tree and the prose behind it, which begins on ``prose_line`` of the file."""

    front: Table
    prose: str
    place: Place
    prose_line: int


def read_page(source: str, path: str, problems: Problems) -> Page | None:
    """Text of a file to front matter and prose; `None` with a problem filed where there is no front matter."""
    lines = source.removeprefix("\ufeff").split("\n")
    if not is_text(source, path, problems):
        return None
    if lines[0].rstrip() != FENCE:
        problems.error(Place(path), "no front matter", expected=f'a first line "{FENCE}"')
        return None
    end = next((number for number, line in enumerate(lines[1:], 1) if line.rstrip() == FENCE), None)
    if end is None:
        problems.error(Place(path), "the front matter is never closed", expected=f'a line "{FENCE}" before the prose')
        return None
    tree = read_yaml("\n".join(lines[1:end]) + "\n", path, problems, first_line=2)
    if tree is None:
        if not problems.errors(path):
            problems.error(Place(path, 2), "the front matter is empty", expected="title: a name")
        return None
    if not isinstance(tree, Table):
        problems.error(tree.place, "the front matter is not a table", expected="a word, a colon, a value on each line")
        return None
    below = "\n".join(lines[end + 1 :])
    blank = below[: len(below) - len(below.lstrip())].count("\n")
    return Page(tree, below.strip() + "\n", Place(path, 2), end + 2 + blank)
