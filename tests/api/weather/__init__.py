"""A household's weather over HTTP."""
