"""The manual's tables and schemas say what the readers read."""

import json

import pytest
import yaml

from gristbook.cli import main
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


@pytest.mark.parametrize(("which", "file"), [("recipe", "quillmere-best.md"), ("book", "book.yaml")])
def test_a_schema_knows_every_field_that_the_demo_book_uses(
    which: str, file: str, capsys: pytest.CaptureFixture[str], request: pytest.FixtureRequest
) -> None:
    assert main(["words", "--schema", which]) == 0
    schema = json.loads(capsys.readouterr().out)
    text = (request.config.rootpath / "recipes" / file).read_text("utf-8")
    front = yaml.safe_load(text.split("---")[1] if file.endswith(".md") else text)
    assert set(front) <= set(schema["properties"])
    assert set(schema["required"]) <= set(front)
    assert schema["additionalProperties"] is False
