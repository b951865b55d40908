"""The modules beside this file that several tests build with, under their own names.

Test modules are imported each by its path, so that none could import its neighbour; these two are there before them.
"""

import importlib.util
import sys
from pathlib import Path


def _beside(name: str) -> None:
    spec = importlib.util.spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
    assert spec is not None
    assert spec.loader is not None
    sys.modules[name] = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(sys.modules[name])


for _name in ("made_up", "any_brew"):
    _beside(_name)
