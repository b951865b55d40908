"""The method: what to do, step by step, in words."""
