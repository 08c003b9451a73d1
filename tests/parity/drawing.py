"""Draws arguments for every call from a seeded stream: the same on every run, spread over the ranges."""

from collections.abc import Callable
from random import Random

from tests.parity import drawing_limits as limits
from tests.parity import drawing_mowing as mowing
from tests.parity import drawing_season as season
from tests.parity import drawing_spread as spread
from tests.parity import drawing_tables as tables
from tests.parity import drawing_weather as weather
from tests.parity.drawing_base import Json, some, within
from tests.parity.drawing_ground import star, traced, walked
from tests.parity.drawing_log import before, ceilings, claims, clashes, due, keep_off, ledger, setback, totals
from tests.parity.drawing_units import typed

ONE_BAD_IN = 8


def draw(name: str, count: int) -> list[Json]:
    """Draw arguments for a call; now and then one of them is out of range, missing or of the wrong kind."""
    stream = Random(f"evenfall {name}")  # repeatable, not secret
    drawn = []
    for at in range(count):
        args = MAKERS[name](stream)
        drawn.append(_spoilt(stream, args) if at % ONE_BAD_IN == ONE_BAD_IN - 1 else args)
    return drawn


def _spoilt(stream: Random, args: Json) -> Json:
    key = stream.choice(sorted(args))
    bad = stream.choice([-1.0e9, None, "much", True, {"odd": 1}])
    required_free = bad is None and key in OPTIONAL
    return args | {key: "much" if required_free else bad}


OPTIONAL = {
    "own",
    "fetched",
    "climate_c",
    "temperature_unit",
    "rain_unit",
    "wind_unit",
    "date_order",
    "on_foot",
    "hopper",
    "bulk_density_kg_m3",
    "parts",
    "level",
    "ground_m2",
    "start_sd_kg",
    "ran_out",
    "goes_on",
    "p2o5_percent",
    "k2o_percent",
    "slow_n_share",
    "price",
    "tolerance_share",
    "length_error_share",
    "method",
    "holes_m",
    "passes",
    "left_sd_kg",
    "now_sd_kg",
    "hopper_sd_kg",
    "missing_kg_m2",
    "swath_m",
    "speed_m_s",
    "since",
    "in_bag_kg",
    "added_kg",
    "aim_kg",
    "n_percent",
    "coverage_m2",
    "circles_m",
    "corner_error_m",
    "worst_accuracy_m",
    "holes_px",
    "distance_error_share",
    "pointing_px",
    "north_px_deg",
    "heading_deg",
    "pattern",
    "header_strips",
    "load_kg",
    "cv_limit_share",
    "trays_apart",
    "unit",
    "quantity",
    "yard",
}
OPTIONAL |= weather.OPTIONAL | mowing.OPTIONAL | season.OPTIONAL | limits.OPTIONAL


def _density(s: Random) -> Json:
    sample_m3 = within(s, "sample_m3", 0.0001, 0.02)
    return {"sample_kg": sample_m3 * s.uniform(150, 2400), "sample_m3": sample_m3}


def _analysis(s: Random) -> Json:
    """Three numbers of a bag, which leave room for the rest of it; one in ten is of more than the whole bag."""
    most = 130.0 if s.random() < 0.1 else 100.0
    n, p2o5 = sorted(s.uniform(0, most) for _ in range(2))
    three = {"n_percent": n, "p2o5_percent": p2o5 - n, "k2o_percent": (most - p2o5) * s.random()}
    return {name: min(100.0, percent) for name, percent in three.items()}


def _nutrients(s: Random) -> Json:
    three = _analysis(s)
    args = {"rate_kg_m2": within(s, "rate_kg_m2"), "n_percent": three.pop("n_percent")}
    return some(s, args, **three, slow_n_share=within(s, "slow_n_share"))


def _aim(s: Random) -> Json:
    kinds: list[Json] = [
        {"kind": "label"},
        {"kind": "nitrogen", "n_kg_m2": within(s, "n_kg_m2", 1e-5, 0.01)},
        {"kind": "bag", "bags": within(s, "bags", 0.1, 3)},
    ]
    args = {"aim": s.choice(kinds), "area_m2": within(s, "area_m2", 20, 2000), "net_kg": within(s, "net_kg", 5, 25)}
    known = {"coverage_m2": within(s, "coverage_m2", 20, 1000), "n_percent": within(s, "n_percent", 1, 46)}
    return some(s, args | known, p2o5_percent=s.uniform(0, 60))


def _zones(s: Random, most: int) -> list[Json]:
    return [{"id": f"z{i}", "area_m2": within(s, "area_m2", 20, 500)} for i in range(s.randint(1, most))]


def _part(s: Random) -> Json:
    shape = s.choice(["rectangle", "triangle", "sides", "circle", "ellipse", "trapezoid"])
    by_name = {
        "rectangle": ("length_m", "width_m"),
        "triangle": ("base_m", "height_m"),
        "circle": ("radius_m",),
        "ellipse": ("length_m", "width_m"),
        "trapezoid": ("side_a_m", "side_b_m", "height_m"),
    }
    if shape == "sides":
        a, b = s.uniform(3, 30), s.uniform(3, 30)
        return {"shape": "triangle", "add": True, "a_m": a, "b_m": b, "c_m": s.uniform(abs(a - b) + 0.1, a + b)}
    lengths = {name: s.uniform(1, 60) for name in by_name[shape]}
    return {"shape": shape, "add": s.random() < 0.85, **lengths}


def _outline(s: Random) -> Json:
    if s.random() < 0.25:
        return {"points_m": [[s.uniform(-9, 9), s.uniform(-9, 9)] for _ in range(s.randint(4, 7))]}
    holes = [star(s, s.uniform(-4, 4), s.uniform(-4, 4), 0.2, 1.5) for _ in range(s.randint(0, 3))]
    beds: list[Json] = [{"x_m": s.uniform(-4, 4), "y_m": s.uniform(-4, 4), "radius_m": s.uniform(0.1, 0.9)}]
    ring: Json = {"points_m": star(s, 0, 0, 8, 20)}
    return some(s, ring, holes_m=holes, circles_m=beds, corner_error_m=s.uniform(0, 1))


def _offsets(s: Random) -> Json:
    widths = [within(s, "offset_m", 0, 40) for _ in range(s.randint(2, 20))]
    method = s.choice(["trapezoid", "sum", "simpson"])
    return some(s, {"spacing_m": s.uniform(0.5, 5), "offsets_m": widths}, method=method)


def _radii(s: Random) -> Json:
    lengths = [s.uniform(2, 20) for _ in range(s.randint(3, 36))]
    return some(s, {"radii_m": lengths}, method=s.choice(["mean", "sectors"]))


def _hopper(s: Random, last: str, high: float) -> Json:
    names = ("top_length_m", "top_width_m", "bottom_length_m", "bottom_width_m", "bulk_density_kg_m3")
    args: Json = {name: within(s, name) for name in names}
    return args | {"height_m": s.uniform(0.05, 2), last: s.uniform(0, high)}


def _pass(s: Random, dial: Json) -> Json:
    clicks = int((dial["highest"] - dial["lowest"]) / dial["step"])
    args: Json = {
        "product": s.choice(["p", "q"]),
        "dial": dial["lowest"] + s.randint(1, clicks) * dial["step"],
        "area_m2": s.uniform(50, 400),
        "used_kg": s.choice([0.0, s.uniform(0.2, 12)]) if s.random() < 0.3 else s.uniform(0.2, 12),
        "measured": s.choice(["scale", "level", "handfuls"]),
    }
    more = {"swath_m": s.uniform(0.5, 4), "speed_m_s": s.uniform(0.5, 2), "left_kg": s.uniform(0, 20)}
    marks = {"bad": s.random() < 0.2, "damp": s.random() < 0.2, "ran_out": s.random() < 0.2}
    stuff = {"bulk_density_kg_m3": s.uniform(400, 1200), "granules": s.choice(["fine", "medium", "coarse"])}
    return some(s, args, **more, **marks, **stuff)


DIALS: list[Json] = [
    {"lowest": 0, "highest": 24, "step": 1},
    {"lowest": 1, "highest": 24, "step": 0.5},
    {"lowest": 1, "highest": 10, "step": 0.25},
]


def _learning(s: Random, most: int = 8, least: int = 0) -> Json:
    dial: Json = s.choice(DIALS)
    product: Json = {"id": "p"}
    stuff = {"bulk_density_kg_m3": s.uniform(400, 1200), "granules": s.choice(["fine", "medium", "coarse"])}
    args = {
        "dial": dial,
        "product": some(s, product, **stuff),
        "history": [_pass(s, dial) for _ in range(s.randint(least, s.choice([most, 40])))],
    }
    return some(s, args, swath_m=s.uniform(0.5, 4), speed_m_s=s.uniform(0.5, 2))


def _spreading(s: Random) -> Json:
    return _learning(s) | {"target_kg_m2": within(s, "target_kg_m2", 0.003, 0.08), "area_m2": s.uniform(50, 800)}


def _next(s: Random) -> Json:
    args = _spreading(s) | {"left_kg": s.uniform(0, 30), "passes_to_go": s.randint(1, 3)}
    return some(s, args, left_sd_kg=s.uniform(0, 2), missing_kg_m2=s.uniform(0, 0.05))


def _check(s: Random) -> Json:
    args = _spreading(s)
    done, load = s.uniform(0.1, 0.9), s.uniform(1, 30)
    part = {"area_done_m2": args["area_m2"] * done, "area_to_go_m2": args["area_m2"] * (1 - done)}
    dial = args["dial"]
    clicks = int((dial["highest"] - dial["lowest"]) / dial["step"])
    args |= part | {"left_kg": load, "now_kg": load * s.uniform(0, 1)}
    args["dial_now"] = dial["lowest"] + s.randint(1, clicks) * dial["step"]
    more = {"passes_to_go": s.randint(1, 3), "missing_kg_m2": s.uniform(0, 0.05)}
    return some(s, args, now_sd_kg=s.uniform(0, 2), **more)


def _taught(s: Random) -> Json:
    args = _learning(s, least=1)
    count = len(args["history"])
    return some(s, args | {"walked": s.randint(1, count)}, since=s.randint(0, count))


def _used(s: Random) -> Json:
    start = s.uniform(0.5, 40)
    ways: list[Json] = [
        {"measured": "scale", "left_kg": start * s.uniform(0, 1.05)},
        {"measured": "level", "hopper_kg": start * s.uniform(0, 0.8)},
        {"measured": "handfuls", "handfuls": s.randint(0, 40), "handful_kg": s.uniform(0.02, 0.2)},
    ]
    args = {"start_kg": start} | s.choice(ways)
    bag = start * s.uniform(0, 0.3)
    return some(s, args, hopper_sd_kg=s.uniform(0, 2), in_bag_kg=bag, added_kg=s.uniform(0, 9), aim_kg=s.uniform(0, 20))


def _walking(s: Random) -> Json:
    """Wishes for a spreading job; the swath is wide enough for drawn ground."""
    wishes = {"pattern": s.choice(["plain", "offset", "crossed"]), "header_strips": s.randint(0, 2)}
    more = {
        "speed_m_s": s.uniform(0.3, 3),
        "load_kg": s.uniform(0, 30),
        "rate_kg_m2": within(s, "rate_kg_m2", 0.002, 0.1),
    }
    return some(s, {"swath_m": s.uniform(0.6, 4)}, **wishes, **more)


def _plan(s: Random) -> Json:
    ground = _outline(s)
    args = {"outline_m": ground["points_m"], **_walking(s)}
    more = {"heading_deg": s.uniform(0, 360), "holes_m": ground.get("holes_m", [])}
    return some(s, args, **more)


def _tour(s: Random) -> Json:
    zones = [some(s, zone, outline_m=star(s, 0, 0, 5, 12), heading_deg=s.uniform(0, 360)) for zone in _zones(s, 4)]
    for zone in zones:
        if "outline_m" in zone and s.random() < 0.4:
            edges = range(len(zone["outline_m"]))
            zone.update(water_edges=s.sample(edges, s.randint(1, 3)), setback_m=s.uniform(0, 2))
    return {"zones": zones, **_walking(s)}


def _trays(s: Random) -> Json:
    caught = [
        s.choice([0.0, s.uniform(0, 30)]) if s.random() < 0.2 else s.uniform(0, 30) for _ in range(s.randint(3, 30))
    ]
    args = {
        "catches_g": caught,
        "tray_spacing_m": s.uniform(0.1, 1),
        "pattern": s.choice(["back_and_forth", "circuit"]),
    }
    return some(s, args, cv_limit_share=s.uniform(0.02, 0.6), trays_apart=s.randint(1, len(caught)))


def _split(s: Random) -> Json:
    zones = _zones(s, 8)
    ground_m2 = sum(zone["area_m2"] for zone in zones)
    passes: list[Json] = [
        {"used_kg": s.choice([0, s.uniform(0, 20)]), "area_m2": max(0.5, ground_m2 * s.uniform(0.2, 0.999))}
        for _ in range(s.randint(0, 4))
    ]
    for row in passes:
        if s.random() < 0.5:
            row["parts"] = [{"area_m2": s.uniform(0, 50), "used_kg": s.uniform(0, 5)} for _ in range(s.randint(1, 4))]
    put_down: list[Json] = [{"used_kg": s.uniform(0, 50)}, {"passes": passes}]
    args = {"zones": zones, **s.choice(put_down)}
    return some(s, args, n_percent=s.uniform(0, 46), p2o5_percent=s.uniform(0, 46))


MAKERS: dict[str, Callable[[Random], Json]] = {
    "weather.sunset": weather.sunset,
    "weather.join": tables.join,
    "weather.months": tables.months,
    "weather.read_table": tables.read_table,
    "area.gps": walked,
    "area.offsets": _offsets,
    "area.outline": _outline,
    "area.radii": _radii,
    "area.shapes": lambda s: some(
        s, {"parts": [_part(s) for _ in range(s.randint(1, 6))]}, length_error_share=s.uniform(0, 0.3)
    ),
    "area.sides": lambda s: {"points_m": star(s, 0, 0, 5, 12)},
    "area.total": lambda s: {"zones": [{"id": one, "area_m2": within(s, "area_m2")} for one in "abc"]},
    "area.trace": traced,
    "area.track": walked,
    "feeding.available": limits.available,
    "feeding.burn": limits.burn,
    "feeding.green_up": limits.green_up,
    "feeding.growth_potential": weather.potential,
    "feeding.lasts": limits.lasts,
    "feeding.release": limits.release,
    "feeding.yearly_aim": limits.yearly_aim,
    "feeding.ledger": ledger,
    "feeding.month_needs": weather.needs,
    "hopper.density": _density,
    "hopper.fills": lambda s: {"mass_kg": within(s, "mass_kg"), "capacity_kg": within(s, "capacity_kg")},
    "hopper.level": lambda s: _hopper(s, "mass_kg", 2.0),
    "hopper.mass": lambda s: _hopper(s, "level_share", 1.0),
    "label.aim": _aim,
    "label.match": lambda s: some(
        s,
        {"coverage_m2": s.uniform(100, 900), "zones": _zones(s, 8)},
        tolerance_share=s.uniform(0, 0.4),
        net_kg=within(s, "net_kg"),
    ),
    "label.needed": lambda s: some(
        s,
        {"area_m2": within(s, "area_m2"), "rate_kg_m2": within(s, "rate_kg_m2"), "net_kg": within(s, "net_kg")},
        price=s.uniform(0, 200),
    ),
    "label.nitrogen_price": lambda s: {
        "price": s.uniform(0, 200),
        "net_kg": within(s, "net_kg"),
        "n_percent": s.uniform(0.01, 46),
    },
    "label.nutrients": _nutrients,
    "label.rate": lambda s: {"net_kg": within(s, "net_kg"), "coverage_m2": within(s, "coverage_m2")},
    "label.rate_for_nitrogen": lambda s: {"n_kg_m2": s.uniform(1e-6, 5), "n_percent": s.uniform(0.01, 100)},
    "limits.ceilings": ceilings,
    "limits.check": limits.check,
    "limits.rules": limits.rules,
    "limits.setback": setback,
    "mowing.cut": mowing.cut,
    "mowing.height": mowing.height,
    "mowing.learn": mowing.learn,
    "mowing.next": mowing.next_mow,
    "mowing.look": mowing.look,
    "mowing.notch": mowing.notch,
    "mowing.forecast": mowing.forecast,
    "mowing.sharpen": mowing.sharpen,
    "mowing.tonight": mowing.tonight,
    "mowing.way_down": mowing.way_down,
    "record.before": before,
    "record.claims": claims,
    "record.clashes": clashes,
    "record.keep_off": keep_off,
    "record.due": due,
    "record.totals": totals,
    "spread.close_pass": spread.close_pass,
    "spread.finish": spread.finish,
    "spread.pour": spread.pour,
    "spread.standing": spread.standing,
    "spreading.check": _check,
    "spreading.curve": _learning,
    "spreading.next": _next,
    "spreading.split": _split,
    "spreading.start": lambda s: some(s, _spreading(s), passes=s.randint(1, 4)),
    "spreading.taught": _taught,
    "spreading.used": _used,
    "swath.tour": _tour,
    "swath.tray_test": _trays,
    "swath.walk_plan": _plan,
    "units.read": typed,
    "warmth.chart": weather.chart,
    "warmth.climate": weather.climate,
    "warmth.degree_days": weather.degree_days,
    "season.gather": season.gather,
    "season.moved": season.moved,
    "season.sheet": season.sheet,
    "season.shopping": season.shopping,
    "season.skeleton": season.skeleton,
    "season.arguments": season.arguments,
    "season.blocked": season.build,
    "season.build": season.build,
    "season.needs": season.needs,
    "season.read": season.read,
    "season.windows": season.windows,
    "warmth.soil": weather.soil,
    "watering.need": weather.need,
    "watering.reference_et": weather.reference_et,
}
