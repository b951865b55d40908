"""The brewing water: its ions, the mash's pH, and what to say of it."""
