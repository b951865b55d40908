"""Text with places, quantities, and the description of every field: how an author's file is read."""
