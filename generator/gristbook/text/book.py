"""A folder to a `Book`: `book.yaml`, the recipes beside it, the author's other pages and pantry."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath

from gristbook.model.book import Book, Chapter, Page
from gristbook.model.brewhouse import Brewhouse
from gristbook.model.paths import TAKEN
from gristbook.model.recipe import Recipe
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Place, Problems
from gristbook.reading import fields as f
from gristbook.reading.fields import Field, Fields, Kind, read_fields, read_tables
from gristbook.reading.files import read_text
from gristbook.reading.names import DATED, fit_for_pages, one_form, pages_in
from gristbook.reading.page import read_page
from gristbook.reading.tree import Table, read_yaml
from gristbook.text.batch import read_batches
from gristbook.text.brewhouse import default_brewhouse, read_brewhouse
from gristbook.text.contents import name_the_unread, recipes_in
from gristbook.text.editions import read_editions, warn_of_idle_drops
from gristbook.text.larder import read_larder
from gristbook.text.learning import read_learning
from gristbook.text.prices import read_prices
from gristbook.text.recipe import read_recipe
from gristbook.text.stand_ins import base_malt, base_mash, malt_extracts
from gristbook.text.values import Desk

BITTERNESS_MODELS = ("tinseth 1997", "rager 1990", "garetz 1994", "daniels 1996")
COLOUR_MODELS = ("morey 1995", "daniels 1995", "mosher 1995")

LANGUAGES = ("en", "en-GB", "en-US")
"""What our own texts are written in, as a page names it (RFC 5646); no page is without them."""

BOOK: tuple[Field, ...] = (
    Field("title", f.WORDS, "The book's title.", required=True, also="name"),
    Field("author", f.WORDS, "Shown on the title page."),
    Field("address", f.ADDRESS, "Where the book will be published.", also="url, site"),
    Field("note", f.WORDS, "A few words under the title."),
    Field("language", Kind("a language of ours, en", choices=LANGUAGES), "The language of the pages.", default="en"),
    Field("units", Kind("metric or US", choices=("metric", "US")), "Shown first.", default="metric"),
    Field("brewhouse", f.WORDS, "The brewhouse of recipes that name none."),
    Field("brewhouses", f.TABLE, "Sets of vessels, by name.", also="equipment"),
    Field("currency", f.WORDS, "The money of pantry/prices.yaml, in the author's own word."),
    Field("editions", f.LINES, "Sizes that each recipe is worked out for."),
    Field("bitterness", Kind("a model", choices=BITTERNESS_MODELS), "The model of bitterness.", default="tinseth 1997"),
    Field("colour", Kind("a model", choices=COLOUR_MODELS), "The model of colour.", default="morey 1995"),
    Field(
        "learning",
        Kind("yes, own or no", choices=("yes", "own", "no")),
        "Whether it has learning pages, and whether ours are among them.",
        default="yes",
    ),
    Field("learning called", f.WORDS, "What those are called at the head of every page, if not Learn."),
    Field("chapters", f.TABLES, "Recipes in the author's order, under headings."),
)

CHAPTER: tuple[Field, ...] = (
    Field("title", f.WORDS, "The chapter's heading.", required=True),
    Field("about", f.WORDS, "A sentence under it."),
    Field("recipes", f.LINES, "Recipes by the names of their files."),
)

PAGE: tuple[Field, ...] = (Field("title", f.WORDS, "The page's heading.", required=True),)


@dataclass(frozen=True, slots=True)
class Shell:
    """A book read but for its recipes: they lie at ``paths``, and each is read by itself."""

    book: Book
    paths: tuple[str, ...]
    pantry: Pantry

    def recipe(self, source: str, path: str, problems: Problems) -> Recipe | None:
        """What a text is that stands in the file at ``path``; `None` where it has an error."""
        recipe = read_recipe(source, path, self.book.brewhouses, self.book.brewhouse, Desk(self.pantry, problems))
        if recipe is not None:
            warn_of_idle_drops(recipe.dropped, self.book.editions, problems)
        return recipe

    def holding(self, recipes: Iterable[Recipe]) -> Book:
        """The whole book, without those that nobody can brew."""
        return replace(self.book, recipes=tuple(it for it in recipes if it.brewhouse not in self.book.broken))


def read_book(folder: Path, problems: Problems) -> Book | None:
    """Everything in a book's folder that can be read; `None` where there is no book. Paths in problems are within it.

    A recipe with an error is left out, and the others stay.
    """
    shell = read_shell(folder, problems)
    if shell is None:
        return None
    sources = {path: read_text(folder, path, problems) for path in shell.paths}
    found = (shell.recipe(source, path, problems) for path, source in sources.items() if source is not None)
    return shell.holding(recipe for recipe in found if recipe is not None)


def read_shell(folder: Path, problems: Problems) -> Shell | None:
    """A book but for its recipes; `None` where there is none."""
    source = read_text(folder, "book.yaml", problems, expected="a file that begins with title: a name")
    tree = read_yaml(source, "book.yaml", problems) if source is not None else None
    if not isinstance(tree, Table):
        if source is not None and not problems.errors("book.yaml"):
            problems.error(Place("book.yaml"), "book.yaml is not a table", expected="title: a name")
        return None
    fields = read_fields(tree, BOOK, problems, "a book")
    desk = Desk(Pantry.load(folder / "pantry", problems, "pantry"), problems)
    before = set(problems.errors("book.yaml"))
    brewhouses, usual, broken = _brewhouses(fields, desk)
    amiss = frozenset(problems.errors("book.yaml")) - before
    paths = recipes_in(folder)
    files = {one_form(PurePosixPath(path).stem): path for path in reversed(paths)}
    name_the_unread(folder, problems)
    book = Book(
        title=fields.words("title"),
        author=fields.words("author"),
        address=fields.words("address"),
        note=fields.words("note"),
        language=fields.words("language"),
        units=fields.words("units"),
        bitterness_model=fields.words("bitterness"),
        colour_model=fields.words("colour"),
        brewhouse=usual,
        brewhouses=brewhouses,
        editions=read_editions(fields.lines("editions"), brewhouses, problems)[0],
        extracts=malt_extracts(),
        base_malt=base_malt(),
        base_mash=base_mash(),
        larder=read_larder(desk.pantry),
        chapters=_chapters(fields, files, problems),
        recipes=(),
        batches=read_batches(folder, frozenset(files), brewhouses, desk),
        pages=_pages(folder, problems),
        prices=read_prices(folder / "pantry", fields.words("currency"), desk),
        learning=None if (asked := fields.words("learning")) == "no" else read_learning(folder, problems, asked),
        learning_called=fields.words("learning called"),
        texts=_texts(folder),
        broken=frozenset(broken),
        amiss=amiss,
    )
    return Shell(book, tuple(path for path, _ in fit_for_pages(paths, problems, TAKEN)), desk.pantry)


def with_recipe(source: str, path: str, book: Book, folder: Path, problems: Problems) -> Book:
    """A book with one recipe alone: what a text is that stands for the file at ``path``, if it can be read."""
    desk = Desk(Pantry.load(folder / "pantry", Problems()), problems)
    recipe = read_recipe(source, path, book.brewhouses, book.brewhouse, desk)
    return replace(book, recipes=(recipe,) if recipe and recipe.brewhouse not in book.broken else ())


def _texts(folder: Path) -> tuple[str, ...]:
    """Every file that a page may be made from, whether it can be read or not."""
    batches = (
        path for pattern in ("*/*.md", "*/*/*.md") for path in folder.glob(pattern) if DATED.fullmatch(path.stem)
    )
    found = (*batches, *folder.glob("pages/*.md"), *folder.glob("theme/learning/*.md"))
    return tuple(sorted({*recipes_in(folder), *(path.relative_to(folder).as_posix() for path in found)}))


def _brewhouses(fields: Fields, desk: Desk) -> tuple[dict[str, Brewhouse], str, set[str]]:
    """The brewhouses by name, the usual one, and the names that nobody can brew in.

    A set that could not be read is there under its name, so that the problems of its recipes are found, too; their
    figures would be wrong, so the recipes themselves are left out.
    """
    found: dict[str, Brewhouse] = {}
    broken: set[str] = set()
    table = fields.table("brewhouses")
    for name, node in table.entries if table else ():
        brewhouse = None
        if isinstance(node, Table):
            brewhouse = read_brewhouse(name, node, desk)
        else:
            desk.problems.error(node.place, f"{name.value} is not a brewhouse", expected="a table, as batch: 20 L")
        broken |= set() if brewhouse else {name.value}
        found[name.value] = brewhouse or default_brewhouse(name.value)
    if not found:
        found["home"] = replace(default_brewhouse(), assumed=True)
    usual = fields.text("brewhouse")
    if usual is None:
        return found, next(iter(found)), broken
    if usual.value not in found:
        desk.problems.unknown(usual.place, f'unknown brewhouse "{usual.value}"', usual.value, found)
        broken.add(usual.value)
        found[usual.value] = default_brewhouse(usual.value)
    return found, usual.value, broken


def _chapters(fields: Fields, files: Mapping[str, str], problems: Problems) -> tuple[Chapter, ...]:
    """Chapters in order; a recipe that stands in two is a problem, and one that stands in none is worth a word."""
    chapters, seen = [], set[str]()
    for chapter in read_tables(fields.lines("chapters"), CHAPTER, problems, "a chapter"):
        recipes = []
        for line in chapter.texts("recipes", "a recipe's name is a word"):
            slug = one_form(line.value.removesuffix(".md").rpartition("/")[2])
            if slug not in files:
                problems.unknown(line.place, f'no recipe "{line.value}.md"', line.value, files)
            elif slug in seen:
                problems.error(line.place, f'"{line.value}" stands in a chapter already')
            else:
                seen.add(slug)
                recipes.append(slug)
        chapters.append(Chapter(chapter.words("title"), chapter.words("about"), tuple(recipes)))
    for slug in sorted(files.keys() - seen) if chapters else ():
        problems.warning(Place(files[slug]), "this recipe stands in no chapter", expected="its name in book.yaml")
    return tuple(chapters)


def _pages(folder: Path, problems: Problems) -> tuple[Page, ...]:
    found = []
    for path, slug in pages_in(folder, "pages", problems, TAKEN):
        source = read_text(folder, path, problems)
        page = read_page(source, path, problems) if source is not None else None
        if page is not None:
            title = read_fields(page.front, PAGE, problems, "a page").words("title")
            if not problems.errors(path):
                found.append(Page(slug, title, page.prose, page.prose_line))
    return tuple(found)
