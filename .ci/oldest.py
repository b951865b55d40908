"""The oldest versions that pyproject.toml allows, as pip takes them: every `>=` of the dependencies made `==`."""

import tomllib
from pathlib import Path

with (Path(__file__).parents[1] / "pyproject.toml").open("rb") as file:
    tables = tomllib.load(file)

asked = [
    *tables["build-system"]["requires"],
    *tables["project"]["dependencies"],
    *tables["project"]["optional-dependencies"]["test"],
]
print("\n".join(sorted({requirement.replace(">=", "==") for requirement in asked})))
