"""The pages that teach: lessons, terms, cautions."""
