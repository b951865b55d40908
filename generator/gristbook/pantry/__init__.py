"""Reference data as YAML, an author's own laid over it, and the look-up that forgives spelling."""
