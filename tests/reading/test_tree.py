"""Text with places: what stays text, where a letter stands, and what a file may not hold."""

import pytest

from gristbook.problems import Place, Problems
from gristbook.reading.page import read_page
from gristbook.reading.tree import DEEPEST, Listing, Node, Table, Text, read_yaml


def read(source: str, first_line: int = 1) -> tuple[Node | None, list[str]]:
    problems = Problems()
    tree = read_yaml(source, "file", problems, first_line)
    return tree, [str(problem) for problem in problems]


def entries(source: str) -> dict[str, Node]:
    tree, problems = read(source)
    assert isinstance(tree, Table)
    assert not problems
    return {key.value: node for key, node in tree.entries}


@pytest.mark.parametrize(
    "written", ["1:30", "no", "on", "null", "~", "1e3", "0x1F", "010", "1_000", "2026-02-01", ".5", "yes"]
)
def test_a_scalar_stays_what_was_typed(written: str) -> None:
    node = entries(f"key: {written}\n")["key"]
    assert isinstance(node, Text)
    assert node.value == written


@pytest.mark.parametrize(
    ("source", "value", "line", "column", "exact"),
    [
        ("key: word\n", "word", 1, 6, True),
        ('key: "word"\n', "word", 1, 7, True),
        ("key: 'word'\n", "word", 1, 7, True),
        ("key: 'it''s'\n", "it's", 1, 6, False),  # the file's letters are not the text's
        ('key: "a\\tb"\n', "a\tb", 1, 6, False),
        ("key: one\n  two\n", "one two", 1, 6, False),
        ("key: >\n  one\n  two\n", "one two\n", 1, 6, False),
        ("key:\n  - é 🍺 ½\n", "é 🍺 ½", 2, 5, True),
        ("é🍺: word\n", "word", 1, 5, True),
        ("key:  word  # a remark\n", "word", 1, 7, True),
    ],
)
def test_a_text_stands_where_an_editor_shows_it(source: str, value: str, line: int, column: int, exact: bool) -> None:
    node = next(iter(entries(source).values()))
    text = node.items[0] if isinstance(node, Listing) else node
    assert text == Text(value, Place("file", line, column), exact)


def test_lines_are_counted_as_an_editor_counts_them() -> None:
    """YAML ends a line at U+0085 and U+2028, too; no editor's column or a compiler's line does."""
    tree, _ = read("first: one\u2028second: two\nthird: three\n", first_line=2)
    assert isinstance(tree, Table)
    assert [(key.value, key.place.line, key.place.column) for key, _ in tree.entries] == [
        ("first", 2, 1),
        ("second", 2, 12),
        ("third", 3, 1),
    ]


def test_a_part_of_a_text_knows_its_own_column() -> None:
    text = Text("28 g Fuggle,  4.5 % alpha", Place("file", 7, 5))
    assert text.split(",") == [Text("28 g Fuggle", Place("file", 7, 5)), Text("4.5 % alpha", Place("file", 7, 19))]
    assert text.part(5, 11).place == Place("file", 7, 10)


def test_a_part_of_a_text_that_the_file_writes_otherwise_stands_at_its_start() -> None:
    text = Text("one two", Place("file", 7, 5), exact=False)
    assert text.part(4).place == Place("file", 7, 5)


def test_a_key_given_twice_is_told_and_the_first_one_counts() -> None:
    tree, problems = read("a: 1\nb: 2\na: 3\n")
    assert isinstance(tree, Table)
    assert [(key.value, node.value) for key, node in tree.entries if isinstance(node, Text)] == [("a", "1"), ("b", "2")]
    assert problems == ['file:3:1: error: "a" is given twice; expected it once (line 1 has it)']


def test_a_file_may_nest_as_deep_as_a_book_needs_and_no_deeper() -> None:
    assert read("[" * (DEEPEST - 1) + "x" + "]" * (DEEPEST - 1))[1] == []
    assert read("[" * DEEPEST + "x" + "]" * DEEPEST)[1] == [
        f"file:1:{DEEPEST + 1}: error: this nests too deeply; expected at most {DEEPEST} levels"
    ]


def test_thousands_of_brackets_are_a_problem_and_no_crash() -> None:
    assert len(read("[" * 50_000)[1]) == 1


@pytest.mark.parametrize("letter", ["\x00", "\x07", "\x1b", "\ufffe", "\x7f"])
def test_a_letter_that_is_not_text_is_told_at_its_place(letter: str) -> None:
    assert read(f"é: 1\nkey: a{letter}b\n")[1] == [
        f"file:2:7: error: a character that is not text, U+{ord(letter):04X}; expected plain UTF-8"
    ]


@pytest.mark.parametrize("escape", ["\\x00", "\\a", "\\e", "\\x7f", "\\N", "\\uFFFE", "\\uD800"])
def test_neither_is_one_that_is_spelled_out(escape: str) -> None:
    tree, told = read(f'one: 1\nkey: "a{escape}b"\n')
    assert tree is None
    assert len(told) == 1
    assert told[0].startswith("file:2:")


def test_an_empty_document_is_nothing() -> None:
    for source in ("", "\n\n", "# a remark\n"):
        assert read(source) == (None, [])


def page(source: str) -> tuple[object, list[str]]:
    problems = Problems()
    return read_page(source, "page.md", problems), [str(problem) for problem in problems]


@pytest.mark.parametrize("source", ["", "Prose.\n", "\n---\ntitle: A\n---\n", " ---\ntitle: A\n---\n", "----\n"])
def test_a_page_without_front_matter_is_told_at_its_first_letter(source: str) -> None:
    assert page(source) == (None, ['page.md:1:1: error: no front matter; expected a first line "---"'])


def test_a_mark_of_byte_order_is_no_part_of_the_page() -> None:
    found, problems = page("\ufeff---\ntitle: A\n---\nProse.\n")
    assert found is not None
    assert problems == []


def test_prose_keeps_its_lines_and_its_own_rules() -> None:
    problems = Problems()
    found = read_page("---\ntitle: A\n---\n\nOne\u2028line.\n\n---\n\nTwo.\n\n", "page.md", problems)
    assert found is not None
    assert found.prose == "One\u2028line.\n\n---\n\nTwo.\n"
    assert found.prose_line == 5
    assert found.front.place == Place("page.md", 2, 1)
