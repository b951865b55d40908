"""`gristbook completion SHELL`: what lets a shell complete commands and options."""

import argparse
from pathlib import Path

from gristbook.cli import parser as whole

EXAMPLE = "gristbook completion bash"
SHELLS = {
    "bash": "~/.local/share/bash-completion/completions/gristbook",
    "zsh": "_gristbook, in a folder of your fpath",
    "fish": "~/.config/fish/completions/gristbook.fish",
}
"""Where each shell looks for what is printed."""


def describe(parser: argparse.ArgumentParser) -> None:
    """What may be said after `gristbook completion`."""
    where = "; ".join(f"{shell}: {path}" for shell, path in SHELLS.items())
    parser.add_argument("shell", choices=tuple(SHELLS), metavar="SHELL", help=f"where to save it: {where}")


def run(options: argparse.Namespace) -> None:
    """Print the script, which then runs nothing of ours."""
    import shtab

    scripted = whole()
    (commands,) = (action for action in scripted._actions if isinstance(action, argparse._SubParsersAction))
    for command in commands.choices.values():
        for action in command._actions:
            if action.type is Path:
                action.complete = shtab.FILE
    print(shtab.complete(scripted, options.shell))
