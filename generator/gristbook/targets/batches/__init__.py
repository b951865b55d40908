"""Batches: what was measured against what was planned, what the book learns from it, and what to do on the day."""
