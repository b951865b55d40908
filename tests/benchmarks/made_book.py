"""A made-up book of as many recipes as are asked for: the same for the same seed, and a long one begins as a short one.

`python -m tests.benchmarks.made_book FOLDER --recipes 1000` lays one. Each recipe has a batch, laid as `gristbook brew`
lays it and filled in, and the book's editions make each beer in three other kettles.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from pathlib import Path
from random import Random

from .made_batch import batch, log
from .made_beer import ALPHA, FAMILIES, FIRST, MADE, THINGS, WORDS, YEASTS, Beer, beer, front, title


def prose(it: Beer, many: int, dice: Random) -> str:
    """A page of it, with links to two other recipes of the book."""
    words = {"hop": it.hops[0][0]}
    parts = [f"This was first brewed for the {it.title.split()[1].lower()}, and then again because it was asked for."]
    for heading, sentences in WORDS["sentences"].items():
        told = [
            text.format(**words, a=dice.choice(THINGS), b=dice.choice(THINGS))
            for text in dice.sample(sentences, dice.randint(2, 4))
        ]
        parts.append(f"## {heading}\n\n{' '.join(told)}")
    others = [title((it.number + step) % many) for step in (-1, dice.randint(2, 9))]
    links = " or ".join(f"[{name}]({name.lower().replace(' ', '-')}.md)" for name in dict.fromkeys(others))
    return "\n\n".join([*parts, f"Beside it on the shelf stands {links}."]) + "\n"


def lay(folder: Path, many: int = 1000, seed: int = 1, chapter: int = 25) -> Path:
    """Write a book of so many recipes, ``chapter`` to a chapter, into a folder that is new or empty."""
    beers = [beer(number, Random(f"{seed} beer {number}")) for number in range(many)]
    files = {
        "book.yaml": (MADE / "book.yaml").read_text("utf-8") + "".join(chapters(beers, chapter)),
        "pages/about.md": (MADE / "about.md").read_text("utf-8"),
        "pantry/waters.yaml": (MADE / "waters.yaml").read_text("utf-8"),
        "pantry/prices.yaml": prices(),
    }
    for it in beers:
        dice, brewed = Random(f"{seed} text {it.number}"), date(2021, 1, 4) + timedelta(days=2 * it.number)
        fields = "\n".join(filter(None, front(it, brewed)))
        files[f"{it.slug}.md"] = f"---\n{fields}\n---\n\n{prose(it, many, dice)}"
        logged = it.number % 15 == 3
        files[f"{it.slug}/{brewed}.md"] = batch(it, brewed, logged, dice)
        if logged:
            files[f"{it.slug}/{brewed}.csv"] = log(it, brewed, dice)
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def chapters(beers: Sequence[Beer], each: int) -> Iterator[str]:
    for first in range(0, len(beers), each):
        some = beers[first : first + each]
        yield f"  - title: The {FIRST[first // each % len(FIRST)].lower()} shelf {first // each + 1}\n"
        yield f"    about: From {some[0].title} to {some[-1].title}.\n"
        yield f"    recipes: [{', '.join(it.slug for it in some)}]\n"


def prices() -> str:
    """What a kilogram, a hundred grams or a packet costs, of everything that a made recipe may use."""
    malts = {name for family in FAMILIES for name in (family.base, *family.others)}
    dear = {family.extract for family in FAMILIES if family.extract} | {
        family.sugar[0] for family in FAMILIES if family.sugar
    }
    lines = [f"{name}: {2 + len(name) % 9 / 10:.2f} / kg" for name in sorted(malts)]
    lines += [f"{name}: {4 + len(name) % 9:.2f} / kg" for name in sorted(dear)]
    lines += [f"{name}: {4 + len(name) % 7 / 10:.2f} / 100 g" for name in sorted(ALPHA)]
    lines += [
        f'"{name}": {4 + len(name) % 5:.2f} / {"pack" if "pack" in amount else "11 g"}'
        for name, (amount, _) in YEASTS.items()
    ]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--recipes", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    print(lay(asked.folder, asked.recipes, asked.seed))
