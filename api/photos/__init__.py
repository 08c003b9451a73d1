"""A household's pictures: which are missing, sending one in chunks, fetching one."""
