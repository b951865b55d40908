"""Two versions of a book beside each other, for `gristbook compare`."""
