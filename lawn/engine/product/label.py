"""What a product's label says, turned into product, nitrogen, bags and money on the ground."""

from lawn.engine.core.errors import EngineError
from lawn.engine.core.numeric import at_least, number, optional_number, total, whole_up
from lawn.engine.core.working import DEFINITION, N_UNIT, step
from lawn.engine.product.oxides import K_OF_K2O, OXIDES_SOURCE, P_OF_P2O5

WHOLE_PERCENT = 100.0
NUMBERS = (("n_percent", "nitrogen"), ("p2o5_percent", "phosphate"), ("k2o_percent", "potash"))


def refuse_over_whole(
    *, n_percent: float | None = None, p2o5_percent: float | None = None, k2o_percent: float | None = None
) -> None:
    """Refuse an analysis whose numbers together are more than the whole product.

    Args:
        n_percent?: nitrogen on the label [%; 0 to 100]
        p2o5_percent?: phosphate, P2O5, on the label [%; 0 to 100]
        k2o_percent?: potash, K2O, on the label [%; 0 to 100]
    Raises:
        over_whole: the numbers given are over 100 % together; value is their sum, high the most allowed
        out_of_range: a number is outside its own range
    Source: definition
    """
    given = {"n_percent": n_percent, "p2o5_percent": p2o5_percent, "k2o_percent": k2o_percent}
    read = [(name, words, optional_number(name, given[name])) for name, words in NUMBERS]
    told = [(name, words, percent) for name, words, percent in read if percent is not None]
    together = total([percent for _name, _words, percent in told])
    if at_least(WHOLE_PERCENT, together):
        return
    words = [row[1] for row in told]
    listed = ", ".join(words[:-1]) + " and " + words[-1]
    message = listed[0].upper() + listed[1:] + " on the label are more together than the whole product."
    raise EngineError(code="over_whole", name=told[0][0], value=together, low=0.0, high=WHOLE_PERCENT, message=message)


def product_rate_kg_m2(*, net_kg: float, coverage_m2: float) -> float:
    """Product per area when a whole bag goes on the ground its label names.

    Args:
        net_kg: net weight of the bag [kg; 0.01 to 2000]
        coverage_m2: ground one bag covers by its label [m2; 0.5 to 100000]
    Returns:
        rate_kg_m2: product per area [kg/m2]
    Raises:
        out_of_range: an argument is outside its range
    Source: definition
    Checked: 20 lb of a 5 % product per 1,000 ft2 carries 1 lb of nitrogen (UMN-SULIS-F9)
    """
    return number("net_kg", net_kg) / number("coverage_m2", coverage_m2)


def nutrient_rate_kg_m2(*, rate_kg_m2: float, percent: float) -> float:
    """Nutrient per area that comes with a product rate.

    Args:
        rate_kg_m2: product per area [kg/m2; 0.000001 to 50]
        percent: share of the nutrient in the product [%; 0 to 100]
    Returns:
        nutrient_kg_m2: nutrient per area [kg/m2]
    Raises:
        out_of_range: an argument is outside its range
    Source: RUTGERS-FERT
    Checked: 5 lb of a 20 % product per 1,000 ft2 brings 1 lb of nitrogen (RUTGERS-FERT)
    """
    return number("rate_kg_m2", rate_kg_m2) * number("percent", percent, 0.0, 100.0) / 100.0


def rate_for_nitrogen_kg_m2(*, n_kg_m2: float, n_percent: float) -> float:
    """Product per area that brings a wanted amount of nitrogen.

    Args:
        n_kg_m2: nitrogen wanted per area [kg/m2; 0.000001 to 5]
        n_percent: nitrogen on the label [%; 0.01 to 100]
    Returns:
        rate_kg_m2: product per area [kg/m2]
    Raises:
        out_of_range: an argument is outside its range
    Source: RUTGERS-FERT
    Checked: 1 lb of nitrogen per 1,000 ft2 from a 28 % product takes 3.57 lb (UNL-BYF)
    """
    wanted = number("n_kg_m2", n_kg_m2, 0.000001)
    return wanted / (number("n_percent", n_percent, 0.01) / 100.0)


def nitrogen_price_per_kg(*, price: float, net_kg: float, n_percent: float) -> float:
    """Money for one kilogram of nitrogen.

    Args:
        price: price of one bag [money; 0 to 100000]
        net_kg: net weight of the bag [kg; 0.01 to 2000]
        n_percent: nitrogen on the label [%; 0.01 to 100]
    Returns:
        price_per_kg_n: money per kilogram of nitrogen [money/kg]
    Raises:
        out_of_range: an argument is outside its range
    Source: TAMU-FERT
    Checked: 40 lb of a 15 % product at 15.00 costs 2.50 per lb of nitrogen (TAMU-FERT)
    """
    nitrogen_kg = number("net_kg", net_kg) * number("n_percent", n_percent, 0.01) / 100.0
    return number("price", price) / nitrogen_kg


def rate(*, net_kg: float, coverage_m2: float) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Product rate of a label: net weight spread over the coverage.

    Args:
        net_kg: net weight of the bag [kg; 0.01 to 2000]
        coverage_m2: ground one bag covers by its label [m2; 0.5 to 100000]
    Returns:
        rate_kg_m2: product per area [kg/m2]
    Raises:
        out_of_range: an argument is outside its range
    Source: definition
    Checked: 20 lb of a 5 % product per 1,000 ft2 carries 1 lb of nitrogen (UMN-SULIS-F9)
    """
    result = product_rate_kg_m2(net_kg=net_kg, coverage_m2=coverage_m2)
    return {"rate_kg_m2": result}, [_rate_step(net_kg, coverage_m2, result)]


def nutrients(
    *,
    rate_kg_m2: float,
    n_percent: float,
    p2o5_percent: float | None = None,
    k2o_percent: float | None = None,
    slow_n_share: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Nitrogen, phosphate and potash per area; what the label does not say stays unknown (null).

    Args:
        rate_kg_m2: product per area [kg/m2; 0.000001 to 50]
        n_percent: nitrogen on the label [%; 0 to 100]
        p2o5_percent?: phosphate, P2O5, on the label [%; 0 to 100]
        k2o_percent?: potash, K2O, on the label [%; 0 to 100]
        slow_n_share?: slow-release share of the nitrogen [share; 0 to 1]
    Returns:
        n_kg_m2: nitrogen per area [kg/m2]
        p2o5_kg_m2: phosphate per area, null if unknown [kg/m2 or null]
        k2o_kg_m2: potash per area, null if unknown [kg/m2 or null]
        p_kg_m2: phosphorus per area, null if unknown [kg/m2 or null]
        k_kg_m2: potassium per area, null if unknown [kg/m2 or null]
        slow_n_kg_m2: slow-release nitrogen per area, null if unknown [kg/m2 or null]
    Raises:
        out_of_range: an argument is outside its range
        over_whole: the three numbers are over 100 % together
    Source: UMN-SULIS-F1
    Checked: 60 lb of 30-4-4 holds 18 lb N, 2.4 lb P2O5, 2.4 lb K2O, 1.1 lb P, 2.0 lb K (UMN-SULIS-F1)
    """
    number("rate_kg_m2", rate_kg_m2)
    number("n_percent", n_percent)
    refuse_over_whole(n_percent=n_percent, p2o5_percent=p2o5_percent, k2o_percent=k2o_percent)
    value: dict[str, object] = {}
    working: list[dict[str, object]] = []
    n_kg_m2 = _nutrient("n", rate_kg_m2, number("n_percent", n_percent), value, working)
    p2o5 = optional_number("p2o5_percent", p2o5_percent)
    k2o = optional_number("k2o_percent", k2o_percent)
    _oxide("p2o5", "p", P_OF_P2O5, rate_kg_m2, p2o5, value, working)
    _oxide("k2o", "k", K_OF_K2O, rate_kg_m2, k2o, value, working)
    slow = optional_number("slow_n_share", slow_n_share)
    value["slow_n_kg_m2"] = None if slow is None else n_kg_m2 * slow
    if slow is not None:
        working.append(_slow_step(n_kg_m2, slow, n_kg_m2 * slow))
    return value, working


def rate_for_nitrogen(*, n_kg_m2: float, n_percent: float) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Product rate that brings a wanted amount of nitrogen.

    Args:
        n_kg_m2: nitrogen wanted per area [kg/m2; 0.000001 to 5]
        n_percent: nitrogen on the label [%; 0.01 to 100]
    Returns:
        rate_kg_m2: product per area [kg/m2]
    Raises:
        out_of_range: an argument is outside its range
    Source: RUTGERS-FERT
    Checked: 1 lb of nitrogen per 1,000 ft2 from a 28 % product takes 3.57 lb (UNL-BYF)
    """
    result = rate_for_nitrogen_kg_m2(n_kg_m2=n_kg_m2, n_percent=n_percent)
    return {"rate_kg_m2": result}, [_rate_for_nitrogen_step(n_kg_m2, n_percent, result)]


def needed(
    *, area_m2: float, rate_kg_m2: float, net_kg: float, price: float | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Product, whole bags and money an area takes.

    Args:
        area_m2: ground to cover [m2; 0.5 to 100000]
        rate_kg_m2: product per area [kg/m2; 0.000001 to 50]
        net_kg: net weight of one bag [kg; 0.01 to 2000]
        price?: price of one bag [money; 0 to 100000]
    Returns:
        mass_kg: product the area takes [kg]
        bags: whole bags to buy [bags]
        left_over_kg: what is left of the last bag [kg]
        cost: money for the whole bags, null if no price is known [money or null]
    Raises:
        out_of_range: an argument is outside its range
    Source: UNL-BYF
    Checked: 3.5714 lb per 1,000 ft2 on 6,000 ft2 is 21.43 lb (UNL-BYF)
    """
    mass_kg = number("area_m2", area_m2) * number("rate_kg_m2", rate_kg_m2)
    bags = whole_up(mass_kg / number("net_kg", net_kg))
    left_over_kg = max(0.0, bags * net_kg - mass_kg)
    each = optional_number("price", price)
    working = [
        _mass_step(area_m2, rate_kg_m2, mass_kg),
        step(
            what="Bags to buy",
            formula="mass over net weight of a bag, up to a whole bag",
            numbers={"mass_kg": mass_kg, "net_kg": net_kg},
            result=bags,
            unit="bags",
            source=DEFINITION,
        ),
        step(
            what="Left of the last bag",
            formula="bags times net weight, less the mass",
            numbers={"bags": bags, "net_kg": net_kg, "mass_kg": mass_kg},
            result=left_over_kg,
            unit="kg",
            source=DEFINITION,
        ),
    ]
    cost = None if each is None else each * bags
    if cost is not None:
        numbers: dict[str, object] = {"bags": bags, "price": price}
        working.append(
            step(
                what="Cost",
                formula="bags times price of a bag",
                numbers=numbers,
                result=cost,
                unit="money",
                source=DEFINITION,
            )
        )
    return {"mass_kg": mass_kg, "bags": bags, "left_over_kg": left_over_kg, "cost": cost}, working


def nitrogen_price(
    *, price: float, net_kg: float, n_percent: float
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Money for one kilogram of the nitrogen in a bag, to compare bags by.

    Args:
        price: price of one bag [money; 0 to 100000]
        net_kg: net weight of the bag [kg; 0.01 to 2000]
        n_percent: nitrogen on the label [%; 0.01 to 100]
    Returns:
        price_per_kg_n: money per kilogram of nitrogen [money/kg]
    Raises:
        out_of_range: an argument is outside its range
    Source: TAMU-FERT
    Checked: 40 lb of a 15 % product at 15.00 costs 2.50 per lb of nitrogen (TAMU-FERT)
    """
    result = nitrogen_price_per_kg(price=price, net_kg=net_kg, n_percent=n_percent)
    numbers: dict[str, object] = {"price": price, "net_kg": net_kg, "n_percent": n_percent}
    formula = "price over (net weight times nitrogen share)"
    working = [
        step(
            what="Price of nitrogen",
            formula=formula,
            numbers=numbers,
            result=result,
            unit="money/kg",
            source="TAMU-FERT",
        )
    ]
    return {"price_per_kg_n": result}, working


def _nutrient(
    key: str, rate_kg_m2: float, percent: float, value: dict[str, object], working: list[dict[str, object]]
) -> float:
    result = nutrient_rate_kg_m2(rate_kg_m2=rate_kg_m2, percent=percent)
    value[key + "_kg_m2"] = result
    working.append(
        step(
            what={"n": "Nitrogen", "p2o5": "Phosphate (P2O5)", "k2o": "Potash (K2O)"}[key] + " per area",
            formula="product rate times its share on the label",
            numbers={"rate_kg_m2": rate_kg_m2, key + "_percent": percent},
            result=result,
            unit=N_UNIT if key == "n" else "kg/m2",
            source="UMN-SULIS-F1",
        )
    )
    return result


def _oxide(
    oxide: str,
    element: str,
    factor: float,
    rate_kg_m2: float,
    percent: float | None,
    value: dict[str, object],
    working: list[dict[str, object]],
) -> None:
    if percent is None:
        value[oxide + "_kg_m2"] = None
        value[element + "_kg_m2"] = None
        return
    oxide_kg_m2 = _nutrient(oxide, rate_kg_m2, percent, value, working)
    value[element + "_kg_m2"] = oxide_kg_m2 * factor
    working.append(
        step(
            what={"p": "Phosphorus", "k": "Potassium"}[element] + " per area",
            formula="oxide times the element's share of its weight",
            numbers={oxide + "_kg_m2": oxide_kg_m2, "factor": factor},
            result=oxide_kg_m2 * factor,
            unit="kg/m2",
            source=OXIDES_SOURCE,
        )
    )


def _rate_step(net_kg: float, coverage_m2: float, result: float) -> dict[str, object]:
    return step(
        what="Product rate of the label",
        formula="net weight over coverage",
        numbers={"net_kg": net_kg, "coverage_m2": coverage_m2},
        result=result,
        unit="kg/m2",
        source=DEFINITION,
    )


def _rate_for_nitrogen_step(n_kg_m2: float, n_percent: float, result: float) -> dict[str, object]:
    return step(
        what="Product rate for the nitrogen",
        formula="nitrogen wanted over the nitrogen share of the product",
        numbers={"n_kg_m2": n_kg_m2, "n_percent": n_percent},
        result=result,
        unit="kg/m2",
        source="RUTGERS-FERT",
    )


def _mass_step(area_m2: float, rate_kg_m2: float, mass_kg: float) -> dict[str, object]:
    return step(
        what="Product for the area",
        formula="area times product rate",
        numbers={"area_m2": area_m2, "rate_kg_m2": rate_kg_m2},
        result=mass_kg,
        unit="kg",
        source="UNL-BYF",
    )


def _slow_step(n_kg_m2: float, slow_n_share: float, result: float) -> dict[str, object]:
    return step(
        what="Slow-release nitrogen per area",
        formula="nitrogen times its slow-release share",
        numbers={"n_kg_m2": n_kg_m2, "slow_n_share": slow_n_share},
        result=result,
        unit=N_UNIT,
        source="SUFFOLK-CO",
    )
