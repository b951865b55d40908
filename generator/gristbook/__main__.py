"""`python -m gristbook` is the `gristbook` command."""

from gristbook.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
