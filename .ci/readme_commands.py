"""The commands of the README, one a line, each of them the whole of a block fenced as `sh`; an error unless two."""

import re
import sys
from pathlib import Path

README = Path(__file__).parents[1] / "README.md"

blocks = re.findall(r"^```sh\n(.*?)^```$", README.read_text(encoding="utf-8"), re.DOTALL | re.MULTILINE)
commands = [block.strip() for block in blocks]
if len(commands) != 2 or any(len(command.splitlines()) != 1 for command in commands):
    sys.exit(f"README.md must give two commands, each in one line, and gives: {commands}")
print("\n".join(commands))
