"""The demo's ground: areas by the engine from what is typed in the scenario, and the outline each zone is drawn by."""

from typing import Any

from lawn.demo.asking import Item, ask, si, typed
from lawn.units import registry

# The form's answer to where the widths were taken, in the engine's word.
_METHODS = {"ends": "trapezoid", "middle": "sum", "simpson": "simpson"}


def ground(row: dict[str, Any]) -> Item:
    """Area, likely error, measurements as typed and outline of a zone of the scenario."""
    measure = row["measure"]
    name, args, as_typed = _offsets(measure) if measure["method"] == "offsets" else _shapes(measure)
    area = ask(name, **args)
    return {
        "area_m2": area["area_m2"],
        "area_sd_m2": area["sd_m2"],
        "method": measure["method"],
        "measured": {"call": name, "args": args, "typed": {"method": measure["method"], **as_typed}},
        "outline": _outline(row["outline"], area["outline_m"]),
    }


def rings(outline: Item) -> Item:
    """An outline as swath calls take it: corners, and every hole as corners."""
    points, holes, circles = outline["points_m"], outline["holes_m"], outline["circles_m"]
    measured = ask("area.outline", points_m=points, holes_m=holes, circles_m=circles)
    return {"outline_m": points, "holes_m": measured["holes_m"]}


def _outline(row: dict[str, Any], drawn: list[list[float]] | None) -> Item:
    """The outline typed in the scenario, or where it says `as measured` the one the engine draws."""
    typed_in = row.get("points")
    points = [[registry.convert(x, row["unit"]), registry.convert(y, row["unit"])] for x, y in typed_in or []]
    if not points and drawn is None:
        raise ValueError("The demo has a zone without corners, and its measurements draw none.")
    circles = [
        {"x_m": si(circle["x"]), "y_m": si(circle["y"]), "radius_m": si(circle["radius"])}
        for circle in row.get("circles", [])
    ]
    return {"points_m": points or drawn, "holes_m": [], "circles_m": circles, "north_deg": row["north_deg"]}


def _shapes(measure: dict[str, Any]) -> tuple[str, Item, Item]:
    parts = measure["parts"]
    args = [
        {"shape": part["shape"], "add": part["add"], **{name: si(pair) for name, pair in part["sizes"].items()}}
        for part in parts
    ]
    as_typed = [
        {**part, "key": str(number), "sizes": {name: typed(pair) for name, pair in part["sizes"].items()}}
        for number, part in enumerate(parts, 1)
    ]
    return "area.shapes", {"parts": args}, {"parts": as_typed}


def _offsets(measure: dict[str, Any]) -> tuple[str, Item, Item]:
    offsets, unit = measure["offsets"], measure["unit"]
    args = {
        "spacing_m": si(measure["spacing"]),
        "offsets_m": [registry.convert(amount, unit) for amount in offsets],
        "method": _METHODS[measure["rule"]],
    }
    lines = {"amounts": offsets, "unit": unit}
    return "area.offsets", args, {"spacing": typed(measure["spacing"]), "offsets": lines, "rule": measure["rule"]}
