"""Growth potential, and the nitrogen that a month's growth asks for."""

from lawn.engine.core.numeric import choice, listing, number, total
from lawn.engine.core.working import DEFINITION, N_UNIT, step
from lawn.engine.warmth.response import OPTIMUM_C, TURFS, WIDTH_C, response

GOOD_SHARE, SLOW_SHARE = 0.5, 0.1  # how the potential is read (gs_use)
SAYS = {
    "cool": "e to the power of minus half the square of degrees off the optimum over the width",
    "warm": "as for cool-season grass with its own optimum and width, but 1 at the optimum and above",
}
SOURCES = {"cool": "woods_2014", "warm": "gs_gp_revised"}


def potential_share(*, mean_c: float, turf: str) -> float:
    """Share of its best growth that a temperature allows.

    Args:
        mean_c: mean temperature of a day or a month [C; -60 to 60]
        turf: season of the grass [one of cool, warm]
    Returns:
        potential_share: 0 to 1 [share]
    Raises:
        out_of_range: the temperature is outside its range
    Source: woods_2014
    Checked: 16.9 C gives cool-season grass 0.85 (woods_2020)
    """
    return response(mean_c, OPTIMUM_C[turf], WIDTH_C[turf], plateau=turf == "warm")


def growth_potential(*, mean_c: float, turf: str) -> tuple[dict[str, object], "list[dict[str, object]]"]:
    """Share of its best growth that a temperature allows.

    Args:
        mean_c: mean temperature of a day or a month [C; -60 to 60]
        turf: season of the grass [one of cool, warm]
    Returns:
        potential: 0 to 1 [share]
        reading: good from a half, slowed down to a tenth, else nearly stopped [one of good, slowed, nearly_stopped]
    Raises:
        out_of_range: the temperature is outside its range
        not_a_choice: the turf is neither cool nor warm
    Source: woods_2014
    Checked: 16.9 C gives cool-season grass 0.85 (woods_2020)
    """
    mean, kind = number("mean_c", mean_c), choice("turf", turf, TURFS)
    share = potential_share(mean_c=mean, turf=kind)
    value: dict[str, object] = {"potential": share, "reading": read_as(share)}
    return value, [
        step(
            what="Growth potential",
            formula=SAYS[kind],
            numbers={"mean_c": mean, "optimum_c": OPTIMUM_C[kind], "width_c": WIDTH_C[kind]},
            result=share,
            unit="share",
            source=SOURCES[kind],
        ),
        step(
            what="Growth read as",
            formula="good from a half, slowed from a tenth, else nearly stopped",
            numbers={"potential": share},
            result=read_as(share),
            unit="text",
            source="gs_use",
        ),
    ]


def read_as(share: float) -> str:
    """What a share of the best growth is called."""
    if share >= GOOD_SHARE:
        return "good"
    return "slowed" if share > SLOW_SHARE else "nearly_stopped"


def month_needs(
    *, monthly_mean_c: "list[float]", turf: str, n_max_month_kg_m2: float
) -> tuple[dict[str, object], "list[dict[str, object]]"]:
    """Nitrogen that each month's growth asks for; an aim to be shared out, not a permission.

    Args:
        monthly_mean_c: means of the twelve months, January first [list of numbers]
        turf: season of the grass [one of cool, warm]
        n_max_month_kg_m2: nitrogen of a month of the best growth [kg/m2; 0 to 0.01]
    Returns:
        n_kg_m2: nitrogen of each month, January first [list of numbers]
        n_year_kg_m2: nitrogen of the year [kg/m2]
        potential: growth potential of each month [list of numbers]
    Raises:
        out_of_range: an argument is outside its range
        wrong_count: there are not twelve months
    Source: gs_n
    Checked: at the optimum a month asks for its most (gs_n)
    """
    means = [
        number("monthly_mean_c[" + str(at) + "]", one)
        for at, one in enumerate(listing("monthly_mean_c", monthly_mean_c, 12, 12))
    ]
    kind, most = choice("turf", turf, TURFS), number("n_max_month_kg_m2", n_max_month_kg_m2)
    shares = [potential_share(mean_c=mean, turf=kind) for mean in means]
    needs = [share * most for share in shares]
    year = total(needs)
    value: dict[str, object] = {"n_kg_m2": needs, "n_year_kg_m2": year, "potential": shares}
    return value, _working(means, kind, most, shares, needs, year)


def _working(
    means: list[float], turf: str, most: float, shares: list[float], needs: list[float], year: float
) -> "list[dict[str, object]]":
    steps = []
    for at in range(12):
        steps.append(
            step(
                what="Growth potential of month " + str(at + 1),
                formula=SAYS[turf],
                numbers={"mean_c": means[at], "optimum_c": OPTIMUM_C[turf], "width_c": WIDTH_C[turf]},
                result=shares[at],
                unit="share",
                source=SOURCES[turf],
            )
        )
        steps.append(
            step(
                what="Nitrogen of month " + str(at + 1),
                formula="growth potential times the most of a month",
                numbers={"potential": shares[at], "n_max_month_kg_m2": most},
                result=needs[at],
                unit=N_UNIT,
                source="gs_n",
            )
        )
    steps.append(
        step(
            what="Nitrogen of the year",
            formula="that of all months added",
            numbers={"n_kg_m2": needs},
            result=year,
            unit=N_UNIT,
            source=DEFINITION,
        )
    )
    return steps
