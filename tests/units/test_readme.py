"""The README says what is so: its environment variables are the ones read, its commands exist."""

import re

from django.core.management import get_commands, load_command_class

from lawn.settings import BASE_DIR

README = (BASE_DIR / "README.md").read_text(encoding="utf-8")
VARIABLE = re.compile(r"\b(?:EVENFALL_[A-Z_]+|DATABASE_URL|CACHE_URL)\b")


def test_every_variable_read_is_in_the_table_and_no_other() -> None:
    reading = [(BASE_DIR / "lawn" / name).read_text(encoding="utf-8") for name in ("settings.py", "web/environment.py")]
    read = set(re.findall(r"\"(EVENFALL_[A-Z_]+|DATABASE_URL|CACHE_URL)\"", "\n".join(reading)))
    rows = "\n".join(line for line in README.splitlines() if line.startswith("| `"))
    assert set(VARIABLE.findall(rows)) == read


def test_the_commands_it_names_exist_with_their_options() -> None:
    known = get_commands()
    for command in re.findall(r"manage\.py ([a-z]+)", README):
        assert command in known, command
    up = load_command_class(known["up"], "up").create_parser("manage.py", "up")
    offered = {option for action in up._actions for option in action.option_strings}
    assert set(re.findall(r"(?<=[ `])--(?:empty|host|port)\b", README)) <= offered
    assert {"--empty", "--host", "--port"} <= set(re.findall(r"--[a-z]+", README))
