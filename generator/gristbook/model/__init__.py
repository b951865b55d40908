"""What a recipe, a brewhouse and a book are: frozen records of values, with no parsing and no files."""
