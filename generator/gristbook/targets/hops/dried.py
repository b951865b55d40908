"""What hops weigh dried: what they give to a beer, and drink of it, goes by that."""

from __future__ import annotations

from gristbook.model.hop import Hop
from gristbook.sheet.value import Value
from gristbook.targets.conventions import WET_HOPS


def as_dried(hop: Hop, mass: Value) -> Value:
    """The weight of hops, or what wet ones would weigh dried."""
    return (mass / WET_HOPS).called(f"{hop.name} as if dried") if hop.form == "wet" else mass
