"""`gristbook schema`: what is read fits it, what is not read for a slip of the kinds that it knows does not."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path
from shutil import copy
from typing import Any

import pytest
import yaml
from jsonschema import Draft7Validator

from gristbook import cli
from gristbook.cli.schema import FILES, schema
from gristbook.problems import Problems
from gristbook.reading.fields import Field
from gristbook.targets.batches.brewed import brewed
from gristbook.targets.plan import plan_book
from gristbook.text.batch_vocabulary import BATCH, FROZEN, MEASURED
from gristbook.text.book import BOOK, CHAPTER, read_book
from gristbook.text.brewhouse import BREWHOUSE
from gristbook.text.vocabulary import RECIPE

from .conftest import Ran

ROOT = Path(__file__).parents[2]
NATURAL = ROOT / "tests" / "natural"


class Core(yaml.SafeLoader):
    """YAML 1.2 as an editor's server reads it (its core schema, 10.3.2): `no` is a word, and a date is one."""


Core.yaml_implicit_resolvers = {}
for kind, pattern, first in (
    ("null", r"~|null|Null|NULL|", [*"~nN", ""]),
    ("bool", "true|True|TRUE|false|False|FALSE", [*"tTfF"]),
    ("int", r"[-+]?[0-9]+", [*"-+0123456789"]),
    ("float", r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?", [*"-+.0123456789"]),
):
    Core.add_implicit_resolver(f"tag:yaml.org,2002:{kind}", re.compile(f"^(?:{pattern})$"), first)  # type: ignore[no-untyped-call]


def as_an_editor_reads(text: str) -> Any:
    front = text.split("---", 2)[1] if text.startswith("---") else text
    return json.loads(json.dumps(yaml.load(front, Core)))


@cache
def validator(file: str, book: Path | None = None) -> Draft7Validator:
    found = json.loads(schema(file, book))
    Draft7Validator.check_schema(found)
    return Draft7Validator(found)


def wrong(file: str, text: str, book: Path | None = None) -> list[str]:
    return [
        f"{it.json_path}: {it.schema.get('errorMessage', it.message)[:200]}"
        for it in validator(file, book).iter_errors(as_an_editor_reads(text))
    ]


NO_FIELD = ("is no field of a recipe", "is read as a line of")
"""Warnings of keys that are read all the same; an editor marks them, as a check does."""

NO_YAML = {
    *("a22-long-night", "b17-chimney-lager", "c21-night-shift-coffee-stout", "d27-winter-blanket"),
    "k24-gluten-free-millet-pale",
}
"""Values with a colon in them, which our reader forgives and a reader of YAML does not."""


def sound(folder: Path) -> Mapping[str, str]:
    """The kind of each file that is read and brewed without an error, and has no key that is no field."""
    problems = Problems()
    book = read_book(folder, problems)
    assert book is not None
    done = brewed(book, problems)
    plan_book(done.book, problems)
    amiss = {it.text for it in problems.errors()}
    amiss |= {it.text for it in problems if any(said in it.what for said in NO_FIELD)}
    kinds = {"book.yaml": "book"} | {it.place.path: "recipe" for it in book.recipes}
    kinds |= {it.batch.place.path: "batch" for it in done.batches}
    return {path: kind for path, kind in kinds.items() if path not in amiss and Path(path).stem not in NO_YAML}


@pytest.mark.parametrize(
    ("texts", "least"), [(ROOT / "recipes", 30), (NATURAL / "recipes", 35), (NATURAL / "others", 165)]
)
def test_whatever_is_read_fits(texts: Path, least: int, tmp_path: Path) -> None:
    folder = texts
    if not (texts / "book.yaml").is_file():
        folder = tmp_path
        for path in texts.glob("*.md"):
            copy(path, folder)
        (folder / "book.yaml").write_text("title: As others type\n", "utf-8")
    kinds = sound(folder)
    assert len(kinds) >= least
    assert set(kinds.values()) - {"batch"} == {"book", "recipe"}
    assert ("batch" in kinds.values()) == (texts.name == "recipes" and folder is texts)
    told = {path: wrong(kind, (folder / path).read_text("utf-8"), folder) for path, kind in kinds.items()}
    assert {path: said for path, said in told.items() if said} == {}


RECIPE_TEXT = """\
title: Reed Bank Bitter
batch: 20 L
boil: 60
malts:
  - 3.6 kg pale ale malt
  - amount: 220 g
    name: caramel malt 60
hops:
  - 40 g Fuggle, 4.5 % alpha, 60 min
yeast: 11 g english ale yeast, attenuative, dried
mash: 67 °C, 60 min
OG: 1.042
expect: {original gravity: 1.042 ± 0.002}
meant: {late hops: it was late}
"""

BATCH_TEXT = """\
brewed: 2026-03-14
measured:
  hydrometer: 20 °C
  end of the boil: 21.5 L at 1.041
  original gravity:
recipe:
  title: Reed Bank Bitter
  malts: [3.6 kg pale ale malt]
  plan: {original gravity: 1.042}
"""

BOOK_TEXT = """\
title: A book
units: metric
brewhouse: hall
brewhouses:
  hall: {batch: 20 L, boil-off: 3 L/h, efficiency: from batches, mash: bag}
chapters:
  - title: All
    recipes: [bitter]
"""

TEXTS = {"recipe": RECIPE_TEXT, "batch": BATCH_TEXT, "book": BOOK_TEXT}

SLIPS = [
    ("recipe", "batch:", "batsh:", "batsh"),
    ("recipe", "batch: 20 L", "batch: 20", "batch"),
    ("recipe", "batch: 20 L", "batch: 20 kg", "batch"),
    ("recipe", "batch: 20 L", "batch: [20 L]", "batch"),
    ("recipe", "title: Reed Bank Bitter\n", "", "title"),
    ("recipe", "3.6 kg pale", "3.6 pale", "malts"),
    ("recipe", "3.6 kg pale", "3.6 kgg pale", "malts"),
    ("recipe", "40 g Fuggle", "40 Fuggle", "hops"),
    ("recipe", "- amount: 220 g", "- amuont: 220 g", "malts"),
    ("recipe", "boil: 60", "boil: 60 °C", "boil"),
    ("recipe", "OG: 1.042", "original gravity: 1042", "original gravity"),
    ("recipe", "{original gravity", "{original gravty", "expect"),
    ("recipe", "{late hops", "{late hopps", "meant"),
    ("batch", "hydrometer", "hidrometer", "hidrometer"),
    ("batch", "hydrometer: 20 °C", "hydrometer: 20 L", "hydrometer"),
    ("batch", "  plan: {original gravity: 1.042}\n", "", "plan"),
    ("book", "units: metric", "units: metrick", "units"),
    ("book", "mash: bag", "mash: bagg", "mash"),
    ("book", "boil-off: 3 L/h", "boil-off: 3 L", "boil-off"),
    ("book", "boil-off: 3 L/h", "boil-of: 3 L/h", "boil-of"),
    ("book", "title: All", "titel: All", "titel"),
]


@pytest.mark.parametrize("file", TEXTS)
def test_the_texts_that_slips_are_made_in_fit(file: str) -> None:
    assert wrong(file, TEXTS[file]) == []


@pytest.mark.parametrize(("file", "right", "slip", "where"), SLIPS)
def test_a_slip_does_not_fit_and_is_told_where_it_is(file: str, right: str, slip: str, where: str) -> None:
    assert TEXTS[file].count(right) == 1
    said = wrong(file, TEXTS[file].replace(right, slip))
    assert said
    assert any(where in it for it in said), said


def test_a_brewhouse_that_the_book_has_not_does_not_fit(book: Path) -> None:
    assert wrong("recipe", RECIPE_TEXT + "brewhouse: hob\n", book) == []
    assert wrong("recipe", RECIPE_TEXT + "brewhouse: hop\n", book)
    assert wrong("recipe", RECIPE_TEXT + "brewhouse: hop\n") == []  # of no book it is not known which there are


def told_of(file: str, fields: tuple[Field, ...], *within: str) -> None:
    """Every field of a table is offered with its sentence, and taken by each of its other names."""
    found = validator(file).schema
    at = found
    for key in within:
        at = at[key]
        at = found["definitions"][at["$ref"].rpartition("/")[2]] if "$ref" in at else at
    assert set(at["properties"]) == {field.name for field in fields}
    for field in fields:
        own = at["properties"][field.name]
        own = found["definitions"][own["$ref"].rpartition("/")[2]] if "$ref" in own else own
        assert own["description"] == field.sentence
        for word in (field.name.upper(), *field.also.split(", ")):
            assert not word or any(re.search(pattern, word) for pattern in at["patternProperties"]), word


def test_every_field_of_every_file_is_in_it() -> None:
    told_of("recipe", RECIPE)
    told_of("batch", BATCH)
    told_of("batch", MEASURED, "properties", "measured")
    told_of("batch", FROZEN, "properties", "recipe")
    told_of("book", BOOK)
    told_of("book", BREWHOUSE, "properties", "brewhouses", "additionalProperties")
    told_of("book", CHAPTER, "properties", "chapters", "items")


def patterns(told: object) -> Iterator[str]:
    if isinstance(told, dict):
        yield from (it for it in told.get("patternProperties", ()))
        yield from (it for key, it in told.items() if key == "pattern" and isinstance(it, str))
    for part in told.values() if isinstance(told, dict) else told if isinstance(told, list) else ():
        yield from patterns(part)


@pytest.mark.parametrize("file", FILES)
def test_every_pattern_can_be_read_by_editors_as_well_as_by_python(file: str) -> None:
    """ECMA-262, 22.2.1: with the flag u, only syntax characters and a slash are escaped, besides classes."""
    found = {*patterns(validator(file).schema)}
    assert len(found) > 20
    for pattern in found:
        assert {*re.findall(r"\\(.)", pattern)} <= {*r"ds^$\.*+?()[]{}|/"}, pattern


@pytest.mark.parametrize("file", FILES)
def test_it_is_printed_with_the_names_of_the_pantry(run: Callable[..., Ran], file: str) -> None:
    ran = run("schema", file, "--book", str(ROOT / "recipes"))
    assert (ran.status, ran.err) == (cli.FINE, "")
    assert json.loads(ran.out)["$schema"] == "http://json-schema.org/draft-07/schema#"
    for name in ("Quillmere tap water",) if file == "book" else ("30 g Fuggle", "Quillmere tap water", "Best Bitter"):
        assert f'"{name}"' in ran.out


def test_a_book_that_cannot_be_read_has_none(book: Path, run: Callable[..., Ran]) -> None:
    (book / "book.yaml").write_text("title: [\n", "utf-8")
    ran = run("schema", "recipe", "--book", "book")
    assert (ran.status, ran.out) == (cli.PROBLEMS, "")
    assert "book/book.yaml" in ran.err
