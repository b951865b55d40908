"""A recipe in the words of schema.org, for search engines: a block of data in its page's head, which nothing runs."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from html import unescape
from urllib.parse import quote

from markupsafe import Markup

from gristbook.model.book import Book
from gristbook.site.amounts import amount
from gristbook.site.beer.brews import Brew
from gristbook.site.beer.ingredients import ingredients
from gristbook.site.figures import in_metric
from gristbook.site.pages import colour_path
from gristbook.site.prose import plain

_PICTURE = re.compile(r'<img src="([^"]+)"')


def recipe_data(brew: Brew, book: Book, prose: Markup) -> Markup:
    """The recipe as schema.org's Recipe, in JSON-LD; whatever the author did not say is not there.

    Its picture is the first of the author's ``prose``, which stands at the site's root, or else the beer's own colour.
    """
    recipe = brew.plan.recipe
    picture = _PICTURE.search(prose)
    address = book.address if not book.address or book.address.endswith("/") else book.address + "/"
    data = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": plain(recipe.title),
        "description": plain(recipe.summary),
        "author": {"@type": "Person", "name": book.author} if book.author else None,
        "datePublished": recipe.date,
        "inLanguage": book.language,
        "image": address + (unescape(picture[1]) if picture else quote(colour_path(recipe.slug))),
        "recipeCategory": "beer",
        "recipeYield": amount(brew.plan.figures.volumes.packaged).metric,
        "recipeIngredient": list(_ingredients(brew)),
        "recipeInstructions": [
            {"@type": "HowToStep", "name": step.title, "text": " ".join(in_metric(said) for said in step.sentences)}
            for step in brew.steps
        ],
    }
    said = json.dumps({key: value for key, value in data.items() if value}, ensure_ascii=False, separators=(",", ":"))
    return Markup(said.replace("<", "\\u003c"))  # no word of an author's can end the block


def _ingredients(brew: Brew) -> Iterator[str]:
    goes = ingredients(brew.plan)
    weighed = [*((row.mass, row.name) for row in goes.grist), *((line.mass, line.hop.name) for line in goes.hops)]
    for much, name in (*weighed, *((line.amount, line.yeast.name) for line, _ in goes.yeasts)):
        yield f"{amount(much).metric} {name}"
    for extra in (*goes.salts, *goes.extras):
        yield f"{in_metric(extra.amount)} {extra.name}".strip()
