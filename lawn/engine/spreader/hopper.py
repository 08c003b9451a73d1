"""The hopper as a frustum: what a level holds, and at which level a mass stands."""

from lawn.engine.core.errors import impossible, out_of_range
from lawn.engine.core.glossary import GLOSSARY
from lawn.engine.core.measuring import MEASURED_SOURCE, READ_SHARE, reading_error_kg
from lawn.engine.core.numeric import number, whole_up
from lawn.engine.core.working import DEFINITION, step


def volume_m3(
    *,
    top_length_m: float,
    top_width_m: float,
    bottom_length_m: float,
    bottom_width_m: float,
    height_m: float,
    level_share: float,
) -> float:
    """Volume below a level in a hopper with straight sloping sides.

    Args:
        top_length_m: inside length at the rim [m; 0.05 to 2]
        top_width_m: inside width at the rim [m; 0.05 to 2]
        bottom_length_m: inside length at the floor [m; 0.01 to 2]
        bottom_width_m: inside width at the floor [m; 0.01 to 2]
        height_m: inside height [m; 0.05 to 2]
        level_share: height of the level as a share of the hopper's [share; 0 to 1]
    Returns:
        volume_m3: volume below the level [m3]
    Raises:
        out_of_range: an argument is outside its range
    Source: definition
    Checked: a box with top and bottom alike holds length times width times level (definition)
    """
    length = number("bottom_length_m", bottom_length_m)
    width = number("bottom_width_m", bottom_width_m)
    longer = number("top_length_m", top_length_m) - length
    wider = number("top_width_m", top_width_m) - width
    level = number("level_share", level_share)
    height = number("height_m", height_m, 0.05, 2.0)
    # The cross-section at share s is (length + longer s)(width + wider s), summed from the floor.
    flat = length * width
    slope = length * wider + width * longer
    corner = longer * wider
    return height * level * (flat + level * (slope / 2.0 + level * corner / 3.0))


def mass(
    *,
    top_length_m: float,
    top_width_m: float,
    bottom_length_m: float,
    bottom_width_m: float,
    height_m: float,
    level_share: float,
    bulk_density_kg_m3: float,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Mass in the hopper at a level, with its likely error and what the hopper holds.

    Args:
        top_length_m: inside length at the rim [m; 0.05 to 2]
        top_width_m: inside width at the rim [m; 0.05 to 2]
        bottom_length_m: inside length at the floor [m; 0.01 to 2]
        bottom_width_m: inside width at the floor [m; 0.01 to 2]
        height_m: inside height [m; 0.05 to 2]
        level_share: height of the level as a share of the hopper's [share; 0 to 1]
        bulk_density_kg_m3: mass of the loose product per volume [kg/m3; 100 to 2500]
    Returns:
        mass_kg: mass below the level [kg]
        sd_kg: likely error, 8 % of what is there [kg]
        capacity_kg: mass of a level-full hopper [kg]
    Raises:
        out_of_range: an argument is outside its range
    Source: definition
    Checked: a box with top and bottom alike holds length times width times level (definition)
    """
    density = number("bulk_density_kg_m3", bulk_density_kg_m3)
    below_m3 = volume_m3(
        top_length_m=top_length_m,
        top_width_m=top_width_m,
        bottom_length_m=bottom_length_m,
        bottom_width_m=bottom_width_m,
        height_m=height_m,
        level_share=level_share,
    )
    full_m3 = volume_m3(
        top_length_m=top_length_m,
        top_width_m=top_width_m,
        bottom_length_m=bottom_length_m,
        bottom_width_m=bottom_width_m,
        height_m=height_m,
        level_share=1.0,
    )
    mass_kg = below_m3 * density
    value: dict[str, object] = {
        "mass_kg": mass_kg,
        "sd_kg": reading_error_kg(measured="level", seen_kg=mass_kg),
        "capacity_kg": full_m3 * density,
    }
    return value, [
        _volume_step(level_share, below_m3),
        _mass_step("Mass in the hopper", below_m3, density, mass_kg),
        _sd_step(mass_kg),
        _mass_step("Mass of a level-full hopper", full_m3, density, full_m3 * density),
    ]


def level(
    *,
    top_length_m: float,
    top_width_m: float,
    bottom_length_m: float,
    bottom_width_m: float,
    height_m: float,
    mass_kg: float,
    bulk_density_kg_m3: float,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Level at which a mass stands in the hopper.

    Args:
        top_length_m: inside length at the rim [m; 0.05 to 2]
        top_width_m: inside width at the rim [m; 0.05 to 2]
        bottom_length_m: inside length at the floor [m; 0.01 to 2]
        bottom_width_m: inside width at the floor [m; 0.01 to 2]
        height_m: inside height [m; 0.05 to 2]
        mass_kg: mass in the hopper, no more than it holds [kg; 0 to 5000]
        bulk_density_kg_m3: mass of the loose product per volume [kg/m3; 100 to 2500]
    Returns:
        level_share: height of the level as a share of the hopper's [share]
        capacity_kg: mass of a level-full hopper [kg]
    Raises:
        out_of_range: an argument is outside its range, or the mass is more than the hopper holds
    Source: definition
    Checked: half of what a box with top and bottom alike holds stands at half its height (definition)
    """
    density = number("bulk_density_kg_m3", bulk_density_kg_m3)
    wanted_m3 = number("mass_kg", mass_kg) / density
    low, high = 0.0, 1.0
    sides = (top_length_m, top_width_m, bottom_length_m, bottom_width_m, height_m)
    capacity_m3 = _volume_at(sides, high)
    if wanted_m3 > capacity_m3 * (1.0 + 1e-9):
        raise out_of_range(name="mass_kg", value=mass_kg, low=0.0, high=capacity_m3 * density)
    for _ in range(100):  # until nothing is left between two neighbouring floats
        middle = 0.5 * (low + high)
        if _volume_at(sides, middle) < wanted_m3:
            low = middle
        else:
            high = middle
    level_share = 0.5 * (low + high) if wanted_m3 > 0.0 else 0.0
    value: dict[str, object] = {"level_share": level_share, "capacity_kg": capacity_m3 * density}
    capacity = _mass_step("Mass of a level-full hopper", capacity_m3, density, capacity_m3 * density)
    return value, [_level_step(wanted_m3, capacity_m3, level_share), capacity]


def density(*, sample_kg: float, sample_m3: float) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Bulk density of a product from a measure of it, filled level and weighed.

    Args:
        sample_kg: weight of the product in the measure, without the measure [kg; 0.005 to 100]
        sample_m3: volume of the measure [m3; 0.00005 to 0.1]
    Returns:
        bulk_density_kg_m3: mass of the loose product per volume [kg/m3]
    Raises:
        out_of_range: an argument is outside its range
        impossible: weight and volume come to no density a product for grass has (100 to 2500 kg/m3)
    Source: definition
    Checked: 0.75 kg in a litre is 750 kg/m3 (definition)
    """
    weight = number("sample_kg", sample_kg)
    volume = number("sample_m3", sample_m3)
    found = weight / volume
    low, high = GLOSSARY["bulk_density_kg_m3"][2], GLOSSARY["bulk_density_kg_m3"][3]
    if found < low or found > high:
        side = "heavy" if found > high else "light"
        message = "That is too " + side + " for any product: look at the weight, the volume and their units again."
        raise impossible(name="bulk_density_kg_m3", value=found, message=message, low=low, high=high)
    worked = step(
        what="Bulk density",
        formula="weight of the product over the volume it fills",
        numbers={"sample_kg": weight, "sample_m3": volume},
        result=found,
        unit="kg/m3",
        source=DEFINITION,
    )
    return {"bulk_density_kg_m3": found}, [worked]


def _volume_at(sides: tuple[float, float, float, float, float], level_share: float) -> float:
    return volume_m3(
        top_length_m=sides[0],
        top_width_m=sides[1],
        bottom_length_m=sides[2],
        bottom_width_m=sides[3],
        height_m=sides[4],
        level_share=level_share,
    )


def _volume_step(level_share: float, below_m3: float) -> dict[str, object]:
    return step(
        what="Volume below the level",
        formula="the widening cross-section summed from the floor to the level",
        numbers={"level_share": level_share},
        result=below_m3,
        unit="m3",
        source=DEFINITION,
    )


def _mass_step(what: str, below_m3: float, density: float, mass_kg: float) -> dict[str, object]:
    return step(
        what=what,
        formula="volume times bulk density",
        numbers={"volume_m3": below_m3, "bulk_density_kg_m3": density},
        result=mass_kg,
        unit="kg",
        source=DEFINITION,
    )


def _sd_step(mass_kg: float) -> dict[str, object]:
    return step(
        what="Likely error of a level read by eye",
        formula="8 % of what is there",
        numbers={"mass_kg": mass_kg, "share": READ_SHARE["level"]},
        result=reading_error_kg(measured="level", seen_kg=mass_kg),
        unit="kg",
        source=MEASURED_SOURCE,
    )


def _level_step(wanted_m3: float, capacity_m3: float, level_share: float) -> dict[str, object]:
    return step(
        what="Level of the mass",
        formula="the level below which the widening hopper holds this volume",
        numbers={"volume_m3": wanted_m3, "capacity_m3": capacity_m3},
        result=level_share,
        unit="share",
        source=DEFINITION,
    )


def fills(*, mass_kg: float, capacity_kg: float) -> tuple[dict[str, object], list[dict[str, object]]]:
    """How often a hopper is filled to put down a mass.

    Args:
        mass_kg: product to put down [kg; 0 to 5000]
        capacity_kg: what a full hopper holds [kg; 0.001 to 10000]
    Returns:
        fills: fills, the last one perhaps not full; 0 for nothing [fills]
    Raises:
        out_of_range: an argument is outside its range
    Source: definition
    Checked: 25 kg by a hopper that holds 10 kg are 3 fills (definition)
    """
    mass = number("mass_kg", mass_kg)
    capacity = number("capacity_kg", capacity_kg)
    found = max(0, whole_up(mass / capacity))
    worked = step(
        what="Hopper fills",
        formula="product to put down over what a full hopper holds, rounded up",
        numbers={"mass_kg": mass, "capacity_kg": capacity},
        result=found,
        unit="fills",
        source=DEFINITION,
    )
    return {"fills": found}, [worked]
