"""The least that anybody could do, to measure by: two scripts that write as many pages of as many bytes for a book.

`naive` reads recipes with PyYAML, renders a template with one expression a line, and draws one plain chart a recipe.
`bytes` works out nothing: it takes the hash of every source and writes as many bytes. Both are told, in a list of path,
bytes and lines, what Gristbook wrote: `python yardstick.py naive BOOK LIST OUT`.
"""

from __future__ import annotations

import hashlib
import io
import json
import sys
from pathlib import Path


def naive(book: Path, pages: list[tuple[str, int, int]], out: Path) -> None:
    import yaml
    from jinja2 import Environment
    from matplotlib.figure import Figure

    page = Environment(autoescape=True).from_string("{% for line in lines %}<p>{{ line }}</p>\n{% endfor %}")
    recipes, charts = {}, {}
    for path in sorted(book.glob("*.md")):
        _, front, prose = path.read_text("utf-8").split("---\n", 2)
        fields = yaml.safe_load(front)
        recipes[path.stem] = [f"{name}: {words}" for name, words in fields.items()] + prose.splitlines()
        figure, drawn = Figure(figsize=(5, 3)), io.StringIO()
        axes = figure.subplots()
        axes.plot([float(str(line).split()[0].strip("%")) for line in fields["malts"]], marker="o")
        axes.set(title=fields["title"], xlabel="malt", ylabel="weight")
        figure.savefig(drawn, format="svg")
        charts[path.stem] = drawn.getvalue()
    usual = next(iter(recipes))
    for path, many, lines in pages:
        slug = path.split("/")[0].removesuffix(".html")
        words = " ".join(recipes.get(slug, recipes[usual]))
        each = max(1, many // max(1, lines) - len("<p></p>\n"))
        told = page.render(lines=[words[n % 400 :][:each] for n in range(lines)]).encode()
        chart = charts.get(slug, "").encode() if path == f"{slug}.html" else b""
        write(out / path, exactly(chart + told, many))


def hashed(book: Path, pages: list[tuple[str, int, int]], out: Path) -> None:
    for path in sorted(book.rglob("*.*")):
        hashlib.sha256(path.read_bytes()).hexdigest()
    for path, many, _ in pages:
        write(out / path, b"x" * many)


def exactly(text: bytes, many: int) -> bytes:
    return ((text or b" ") * (many // (len(text) or 1) + 1))[:many]


def write(path: Path, text: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(text)


if __name__ == "__main__":
    kind, *places = sys.argv[1:]
    book, listed, out = map(Path, places)
    {"naive": naive, "bytes": hashed}[kind](book, json.loads(listed.read_text("utf-8")), out)
