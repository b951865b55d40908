"""The pages: which there are, what each is given, how it is rendered, and how it comes to lie in a folder."""
