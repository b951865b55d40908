"""A small made-up book with something in every file that a book may have, for random edits to begin from."""

from __future__ import annotations

import re
from pathlib import Path

from PIL import Image

from .made_book import lay

FILES = {
    "pages/visit.md": "---\ntitle: How to find us\n---\nUp the valley, past the [notes](about.md), and ask for 12.\n",
    "theme/recipe.html": '{% extends "!recipe.html" %}\n'
    '{% block head %}{{ super() }}<meta name="author" content="marl 1">{% endblock %}\n',
    "theme/extra.css": ":root { --accent: #2f6f4e; }\n",
    "theme/learning/slate.md": "---\ntitle: What slate teaches\nsummary: An hour with 2 jugs.\n---\nFill both jugs.\n",
    "theme/learning/contents.yaml": "- title: By the quarry\n  about: What needs no kettle.\n  pages: [slate]\n",
    "theme/learning/glossary.yaml": "- term: quarry\n  words: Where the kettle stands, on level 2.\n  see: slate\n",
    "pantry/malts.yaml": "- name: Tarnhollow malt\n  kind: caramel\n  extract: 75 %\n  moisture: 5 %\n  colour: 45 °L\n"
    "  needs mash: no\n  source: invented\n",
    "pantry/hops.yaml": "- name: Fuggle\n  about: Grown behind shed 1.\n  source: invented\n",
}
EDITIONS = "language: en\neditions: [10 L in cabin, 5 gal in halt]"
FEW_BREWS = 5


def begin(folder: Path, recipes: int, seed: int) -> Path:
    """Lay it: each recipe in two more kettles, a few brews, a picture, and an ingredient of the author's own."""
    lay(folder, recipes, seed, chapter=4)
    book = folder / "book.yaml"
    book.write_text(
        re.sub(r"editions:.*", "editions: [10 L in cabin, 5 gal in halt]", book.read_text("utf-8")), "utf-8"
    )
    for brew in sorted(folder.glob("*-*/*.md"))[FEW_BREWS:]:
        if not brew.with_suffix(".csv").exists():
            brew.unlink()
            brew.parent.rmdir()
    for name, text in FILES.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    first = next(path for path in sorted(folder.glob("*.md")) if "mash:" in path.read_text("utf-8"))
    own = first.read_text("utf-8").replace("malts:\n", "malts:\n  - 50 g Tarnhollow malt\n", 1)
    first.write_text(f"{own}\n![The board]({first.stem}/board.png)\n", "utf-8")
    paint(folder / first.stem / "board.png", "#2f6f4e")
    return folder


def paint(path: Path, colour: str) -> None:
    path.parent.mkdir(exist_ok=True)
    Image.new("RGB", (64, 48), colour).save(path)
