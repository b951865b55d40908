"""What a build keeps for the next one, as bytes: only things of ours that are no page, and read only as such.

Of a value its lineage is left behind. What is not known for one of ours is neither written nor read.
"""

from __future__ import annotations

import io
import pickle
import sys
from dataclasses import is_dataclass
from enum import Enum
from typing import Any

from gristbook.sheet.bare import bare, restored
from gristbook.sheet.value import Value

OURS = "gristbook."


def kept(it: object) -> bytes:
    """A thing as bytes.

    Raises
    ------
    TypeError, pickle.PicklingError
        It holds what is none of ours, as a piece of a page.
    """
    out = io.BytesIO()
    _Writer(out, protocol=5).dump(it)
    return out.getvalue()


def taken_up(data: bytes) -> Any:
    """The thing again.

    Raises
    ------
    Exception
        Of whatever kind, where the bytes are anything else.
    """
    return _Reader(io.BytesIO(data)).load()


class _Writer(pickle.Pickler):
    def reducer_override(self, it: object) -> Any:
        if type(it) is Value:
            own = bare(it)
            return restored, (own.number, own.unit, own.label, own.origin, own.metric, own.sure)
        if isinstance(it, type) or callable(it) or is_dataclass(it) or isinstance(it, Enum):
            name = (it if isinstance(it, type) or callable(it) else type(it)).__module__
            if not f"{name}.".startswith(OURS):
                raise TypeError(f"{it!r} is nothing of ours")
        elif type(it).__module__ != "builtins":
            raise TypeError(f"{it!r} is nothing that a build keeps")
        return NotImplemented


class _Reader(pickle.Unpickler):
    def find_class(self, module: str, name: str) -> Any:
        if not module.startswith(OURS):
            raise pickle.UnpicklingError(f"{module}.{name} is none of ours")
        found = getattr(sys.modules.get(module) or __import__(module, fromlist=[name]), name)
        if found is not restored and not (isinstance(found, type) and (is_dataclass(found) or issubclass(found, Enum))):
            raise pickle.UnpicklingError(f"{module}.{name} is nothing that a build keeps")
        return found
