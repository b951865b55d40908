"""The published equations: pure functions of floats, each filed with its source, formula and range."""
