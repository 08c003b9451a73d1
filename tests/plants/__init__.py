"""Tests of the tests: faults put into a copy of the code one by one, each of which a named test must catch.

`catalogue.py` gathers them, one file a topic; `tree.py` makes the copy, `running.py` plants and runs. By hand:
`uv run manage.py plant --list`, `plant NAME`, `plant --all`.
"""
