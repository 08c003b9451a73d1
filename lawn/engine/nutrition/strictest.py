"""Which of several published figures holds: the place's own where it has one, else the strictest of all."""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


def known_rows(
    here: "list[dict[str, Any]]", rows: "list[dict[str, Any]]", figure: str | None
) -> "list[dict[str, Any]]":
    """The rows of the place that give a figure, or where it has none all rows that do."""
    own = [row for row in here if figure is None or row.get(figure) is not None]
    return own or [row for row in rows if figure is None or row.get(figure) is not None]


def strictest(figures: "list[float]", highest: bool = False) -> int:
    """Where the strictest figure stands: the lowest, or the highest where more is stricter; the first of equals."""
    return figures.index(max(figures) if highest else min(figures))
