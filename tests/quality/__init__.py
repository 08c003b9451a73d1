"""The tools that read the code, and what must be so of the whole tree."""
