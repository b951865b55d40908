"""What a fruit or a juice is besides its sugar."""

from __future__ import annotations

from dataclasses import dataclass

from gristbook.sheet.value import Value


@dataclass(frozen=True, slots=True)
class Flesh:
    """Water and acid of a fruit as it is weighed (fractions), the name of the acid, and what may hurt in it.

    ``said`` is what its line says of stones, "" where they are out.
    """

    water: Value
    acid: Value
    sour_of: str
    care: str
    said: str
