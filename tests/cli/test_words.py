"""The manual's tables and schemas say what the readers read."""

import pytest

from gristbook.cli import PROBLEMS, main
from gristbook.pantry.pantry import Pantry
from gristbook.problems import Problems
from gristbook.text.manual import BATCH_LINES, FILES
from gristbook.text.vocabulary import LINES


def test_every_field_and_every_part_of_a_line_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["words"]) == 0
    printed = capsys.readouterr().out
    for fields in FILES.values():
        for field in fields:
            assert f"{field.name}:" in printed
            assert field.sentence in printed
    for properties in (*LINES.values(), *BATCH_LINES.values()):
        for part in properties:
            assert part.example in printed


@pytest.mark.parametrize(
    ("topic", "name"),
    [
        (["hops"], "Nelson Sauvin"),
        (["malts"], "Maris Otter malt"),
        (["malts"], "Munich malt light "),
        (["sugars"], "Honey"),
        (["extracts"], "mostly meant by dried malt extract"),
        (["yeasts"], "Brettanomyces"),
        (["styles"], "Best Bitter"),
        (["waters"], "Distilled water"),
        (["finings", "and", "spices"], "Coriander seed"),
        (["units"], "kilogram"),
        (["figures"], "original gravity"),
    ],
)
def test_the_names_of_a_topic_are_listed(topic: list[str], name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["words", *topic]) == 0
    assert name in capsys.readouterr().out


def test_every_name_that_is_listed_can_be_typed(capsys: pytest.CaptureFixture[str]) -> None:
    for topic in ("hops", "malts", "sugars", "extracts", "yeasts", "salts"):
        assert main(["words", topic]) == 0
        shelf = getattr(Pantry.load(None, Problems()), topic)
        names = [line[:34].strip() for line in capsys.readouterr().out.splitlines()]
        assert len(names) == len(shelf.records)
        assert [shelf.look_up(name).only for name in names] == list(shelf.records)


def test_a_books_own_names_are_listed_beside_ours(
    request: pytest.FixtureRequest, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["words", "waters", "--book", str(request.config.rootpath / "recipes")]) == 0
    own = set(capsys.readouterr().out.splitlines())
    assert main(["words", "waters"]) == 0
    assert own > set(capsys.readouterr().out.splitlines())


def test_a_topic_that_there_is_not_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["words", "hopps"]) == PROBLEMS
    assert capsys.readouterr().err == 'gristbook: no list of "hopps"; did you mean "hops"?\n'
    assert main(["words", "cheese"]) == PROBLEMS
    assert "expected one of malts" in capsys.readouterr().err
