"""Bitterness, addition by addition."""
