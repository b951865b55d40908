"""`python -m gristbook.lend SHARE`: the other end of `gristbook.hands`, which makes one share of a book."""

import json
import pickle
import sys
from pathlib import Path

from gristbook.interface import Book

if __name__ == "__main__":
    asked = json.loads(sys.argv[1])
    made = Book(Path(asked["folder"])).share(asked["first"], asked["of"], asked["digest"])
    sys.stdout.buffer.write(pickle.dumps(made))
