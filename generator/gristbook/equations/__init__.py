"""The equations: pure functions of floats, each filed with its source, its formula and its range.

To import the room is to file them all.
"""

from importlib import import_module
from pkgutil import iter_modules

for module in iter_modules(__path__):
    import_module(f"{__name__}.{module.name}")
