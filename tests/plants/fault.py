"""What a planted fault is."""

from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True)
class Named:
    """A test by name: a file of the project, and in it a Python function or (part of) a vitest title."""

    file: str
    title: str

    @property
    def is_python(self) -> bool:
        """Whether pytest runs it; vitest runs the others."""
        return self.file.endswith(".py")

    def __str__(self) -> str:
        return f"{self.file}::{self.title}" if self.is_python else f"{self.file} > {self.title}"

    def is_there(self, root: Path = ROOT) -> bool:
        """Whether the file has a test of that name."""
        text = (root / self.file).read_text(encoding="utf-8") if (root / self.file).is_file() else ""
        return text.count(f"def {self.title}(" if self.is_python else f'"{self.title}') == 1


@dataclass(frozen=True)
class Planted:
    """One fault.

    name: what it is called on the command line
    wrong: what goes wrong with it, in one sentence
    file: the project's file it is put into
    found: the exact text it takes the place of, which stands in the file once
    instead: the faulty text
    by: the tests that must fail with it, each of them
    """

    name: str
    wrong: str
    file: str
    found: str
    instead: str
    by: tuple[Named, ...]

    def in_text(self, text: str) -> str:
        """Return the file's text with the fault in it; raise ValueError where the place is not there just once."""
        if text.count(self.found) != 1:
            raise ValueError(f"{self.name}: its text stands {text.count(self.found)} times in {self.file}, not once")
        return text.replace(self.found, self.instead)


def by(file: str, *titles: str) -> tuple[Named, ...]:
    """Return the tests of one file that catch a fault."""
    return tuple(Named(file, title) for title in titles)
