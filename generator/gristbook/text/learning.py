"""Learning pages and glossary to the model: the texts that ship with us, and the author's laid over them by name.

A file of the author's in `theme/learning/` stands in the place of ours of that name, a term of his glossary in the
place of ours, a page that his list names where he names it. What cannot be read is a problem, and ours stays.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from gristbook.model.figures import FIGURES, figure_called
from gristbook.model.learning import FIRST, RECIPE_PARTS, Example, Group, Learning, Lesson, RecipePart, Term
from gristbook.problems import Problems
from gristbook.reading import fields as f
from gristbook.reading.fields import Field, Fields, Kind, read_fields, read_tables
from gristbook.reading.files import read_text, themes
from gristbook.reading.names import pages_in
from gristbook.reading.page import read_page
from gristbook.reading.tree import Listing, Node, Table, Text, read_yaml

OURS, OWN = "learning", "theme/learning"
NO_NAME = "a learning page's name is a word"
CONTENTS, GLOSSARY, EXPLAINS = "contents.yaml", "glossary.yaml", "explains.yaml"

LESSON: tuple[Field, ...] = (
    Field("title", f.WORDS, "The page's heading.", required=True),
    Field("summary", f.WORDS, "One sentence about it, for the list of all.", required=True),
    Field("kind", Kind("lesson, or nothing", choices=("lesson",)), "Whether it is a sheet for a class."),
    Field("answers", f.WORDS, "The page with the sheet's answers, by the name of its file."),
    Field("shown by", f.LINES, "Beers to see it in: first beer, or most, least or no, and a figure (most colour)."),
)

GROUP: tuple[Field, ...] = (
    Field("title", f.WORDS, "The heading of learning pages that belong together.", required=True),
    Field("about", f.WORDS, "A sentence under it."),
    Field("pages", f.LINES, "Learning pages by the names of their files, in reading order."),
    Field("without", f.LINES, "Learning pages of ours that this book leaves out."),
)

TERM: tuple[Field, ...] = (
    Field("term", f.WORDS, "A word of the trade.", required=True),
    Field("also", f.LINES, "Other shapes of it that a text may use."),
    Field("words", f.WORDS, "What it means, in one to three sentences.", required=True),
    Field("see", f.WORDS, "A learning page that tells more, by the name of its file."),
)


@dataclass(frozen=True, slots=True)
class _Shelf:
    """A folder of texts: where it is, what its files are called in problems, whether the author's, who is told."""

    root: Path
    folder: str
    own: bool
    problems: Problems

    def text(self, name: str) -> str | None:
        """A file of the shelf. Ours may be links, as some installers lay them."""
        return read_text(self.root, name, self.problems) if self.own else (self.root / name).read_text("utf-8")


def read_learning(book: Path, problems: Problems, asked: str = "yes", ours: Path | None = None) -> Learning:
    """What a learner may read; ``ours`` is the folder of what ships with us, and left out where "own" is ``asked`` for.

    What is wrong in the author's files is a problem of those files. Ours are not his to mend: a test holds them to the
    same, and what leads nowhere once his are laid over them is left out.
    """
    own = _Shelf(book, OWN, True, problems)
    shelves = (own,) if asked == "own" else (_Shelf(ours or themes(), OURS, False, Problems()), own)
    lessons: dict[str, Lesson] = {}
    terms: dict[str, Term] = {}
    groups: list[Group] = []
    explains: dict[RecipePart, str] = {}
    for shelf in shelves:
        lessons |= {lesson.slug: lesson for lesson in _lessons(shelf)}
        terms |= {term.term.casefold(): term for term in _terms(shelf)}
    for shelf in shelves:
        groups = _laid_over(groups, *_groups(shelf, lessons))
        explains |= _explains(shelf, lessons)
    return _whole(lessons, groups, terms, explains, problems)


def _whole(
    lessons: dict[str, Lesson],
    groups: list[Group],
    terms: dict[str, Term],
    explains: dict[RecipePart, str],
    problems: Problems,
) -> Learning:
    """All of it without what leads nowhere; a page of the author's that nobody would find is worth a word."""
    shown = {slug for group in groups for slug in group.pages}
    shown |= {lessons[slug].answers for slug in shown if lessons[slug].answers in lessons}
    for lesson in lessons.values():
        if lesson.place and lesson.slug not in shown:
            problems.warning(lesson.place, "this learning page stands in no group", expected=f"its name in {CONTENTS}")
        if lesson.place and lesson.answers and lesson.answers not in lessons:
            _nowhere(Text(lesson.answers, lesson.place, exact=False), lessons, problems)
    for term in terms.values():
        if term.place and term.see and term.see not in lessons:
            _nowhere(Text(term.see, term.place, exact=False), lessons, problems)
    pages = [lessons[slug] for slug in sorted(shown)]
    return Learning(
        {it.slug: it if it.answers in shown else replace(it, answers="") for it in pages},
        tuple(groups),
        tuple(it if it.see in shown else replace(it, see="") for _, it in sorted(terms.items())),
        {part: explains[part] for part in RECIPE_PARTS if explains.get(part) in shown},
    )


def _nowhere(text: Text, lessons: dict[str, Lesson], problems: Problems) -> None:
    problems.unknown(text.place, f'no learning page "{text.value}.md"', text.value, lessons)


def _lessons(shelf: _Shelf) -> Iterator[Lesson]:
    for name, slug in pages_in(shelf.root, shelf.folder, shelf.problems, {"index"}):
        source = shelf.text(name)
        page = read_page(source, name, shelf.problems) if source is not None else None
        if page is None:
            continue
        fields = read_fields(page.front, LESSON, shelf.problems, "a learning page")
        words = {field.name: fields.words(field.name) for field in LESSON if field.name != "shown by"}
        shown_by = tuple(_shown_by(fields, shelf.problems))
        if not shelf.problems.errors(name):
            place = page.place if shelf.own else None
            told, line = page.prose, page.prose_line
            yield Lesson(slug=slug, prose=told, prose_line=line, place=place, shown_by=shown_by, **words)


def _shown_by(fields: Fields, problems: Problems) -> Iterator[Example]:
    expected = "first beer, or most, least or no, and a figure: most colour"
    for node in fields.texts("shown by", "what shows a lesson is words", expected):
        how, _, words = " ".join(node.value.casefold().split()).partition(" ")
        figure = figure_called(words)
        if f"{how} {words}" == FIRST.how:
            yield FIRST
        elif how in ("most", "least", "no") and figure in FIGURES:
            yield Example(how, figure.id)
        else:
            names = [f"{how} {it.words}" for it in FIGURES]
            problems.unknown(node.place, f'no beer is known by "{node.value}"', node.value, names, expected=expected)


def _tables(shelf: _Shelf, name: str, fields: tuple[Field, ...], what: str) -> list[Fields] | None:
    """The tables of a file that is a list of them; `None` where the file is not there, or is no such list."""
    path = f"{shelf.folder}/{name}"
    tree = _tree(shelf, name)
    if not isinstance(tree, Listing):
        if tree is not None:
            shelf.problems.error(tree.place, f"{name} is not a list", expected=f"- {fields[0].name}: a name")
        return None
    tables = list(read_tables(tree.items, fields, shelf.problems, what))
    return None if shelf.problems.errors(path) else tables


def _tree(shelf: _Shelf, name: str) -> Node | None:
    path = f"{shelf.folder}/{name}"
    if not (shelf.root / path).exists():
        return None
    source = shelf.text(path)
    return read_yaml(source, path, shelf.problems) if source is not None else None


def _groups(shelf: _Shelf, lessons: dict[str, Lesson]) -> tuple[list[Group], set[str]]:
    """The groups of a list, and the pages that it leaves out; a page stands in one place."""
    seen = set[str]()

    def named(table: Fields, field: str) -> Iterator[str]:
        for node in table.texts(field, NO_NAME):
            if node.value not in lessons:
                _nowhere(node, lessons, shelf.problems)
            elif node.value in seen:
                shelf.problems.error(node.place, f'"{node.value}" stands in a group already')
            else:
                seen.add(node.value)
                yield node.value

    groups, without = list[Group](), set[str]()
    for table in _tables(shelf, CONTENTS, GROUP, "a group") or ():
        groups.append(Group(table.words("title"), table.words("about"), tuple(named(table, "pages"))))
        without |= set(named(table, "without"))
    return groups, without


def _laid_over(ours: list[Group], own: list[Group], without: set[str]) -> list[Group]:
    """The author's groups over ours by their titles: he moves and adds what he names, and all the rest stays."""
    listed = {page for group in own for page in group.pages} | without
    laid: dict[str, Group] = {}
    for group in ours:
        laid[group.title.casefold()] = replace(group, pages=tuple(page for page in group.pages if page not in listed))
    for group in own:
        below = laid.get(group.title.casefold(), replace(group, pages=()))
        pages = group.pages + below.pages
        laid[group.title.casefold()] = Group(group.title, group.about or below.about, pages)
    return [group for group in laid.values() if group.pages]


def _terms(shelf: _Shelf) -> Iterator[Term]:
    for table in _tables(shelf, GLOSSARY, TERM, "a term") or ():
        term, shapes = table.words("term"), table.texts("also", "another shape of a term is words")
        also = [" ".join(node.value.split()) for node in shapes]
        written = table.text("term")
        if term and written:
            forms = tuple(dict.fromkeys(form for form in (term, *also) if form))
            yield Term(term, forms, table.words("words"), table.words("see"), written.place if shelf.own else None)


def _explains(shelf: _Shelf, lessons: dict[str, Lesson]) -> Iterator[tuple[RecipePart, str]]:
    """The page for each part of a recipe's page."""
    tree = _tree(shelf, EXPLAINS)
    if tree is not None and not isinstance(tree, Table):
        shelf.problems.error(tree.place, f"{EXPLAINS} is not a table", expected="hops: a learning page")
        return
    for key, node in tree.entries if tree else ():
        if key.value not in RECIPE_PARTS:
            what, expected = f'a recipe\'s page has no part "{key.value}"', " or ".join(RECIPE_PARTS)
            shelf.problems.unknown(key.place, what, key.value, RECIPE_PARTS, expected=expected)
        elif not isinstance(node, Text):
            shelf.problems.error(node.place, NO_NAME)
        elif node.value and node.value not in lessons:
            _nowhere(node, lessons, shelf.problems)
        else:
            yield key.value, node.value
