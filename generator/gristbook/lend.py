"""`python -m gristbook.lend SHARE`: the other end of `gristbook.hands`, which makes one share of a book."""

import json
import pickle
import sys
from pathlib import Path

from gristbook.building import share

if __name__ == "__main__":
    asked = json.loads(sys.argv[1])
    sys.stdout.buffer.write(pickle.dumps(share(Path(asked["folder"]), asked["beers"], asked["digest"])))
