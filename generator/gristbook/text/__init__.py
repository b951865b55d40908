"""Recipe and book files to the model."""
