"""A book as it is being written: read anew after each save, and shown in a browser with what is wrong in it."""
