"""Faults in what the dial learns from, and in what keeps one bad pass from blocking a spreader."""

from tests.plants.fault import Planted, by

_PASSES = "lawn/engine/dial/history.py"
_PAST = "tests/engine/test_past_passes.py"
_UNMEASURED = "frontend/src/features/spreading/model/unmeasured.test.ts"

PLANTS = (
    Planted(
        "zero_is_nothing_came",
        "A stretch that used nothing by its readings is taken as one at which nothing came.",
        _PASSES,
        'nothing = flag(path + ".nothing_came", fields.get("nothing_came"))',
        'nothing = flag(path + ".nothing_came", fields.get("nothing_came")) or used_kg <= 0.0',
        by(_PAST, "test_a_stretch_within_its_reading_error_far_up_the_dial_stops_no_walk"),
    ),
    Planted(
        "error_read_as_rate",
        "What a stretch used within its reading error is taken for a rate.",
        _PASSES,
        "unmeasured = not nothing and (used_kg <= error_kg or rate_kg_m2 <= 0.0)",
        "unmeasured = not nothing and rate_kg_m2 <= 0.0",
        by(_PAST, "test_a_stretch_within_its_reading_error_teaches_nothing"),
    ),
    Planted(
        "reading_before_forgotten",
        "The phone does not say by which reading a stretch began.",
        "frontend/src/records/pass-history.ts",
        "const { left_kg: before_left_kg, measured: before_measured } = (k ? parts[k - 1] : first) ?? {};",
        "const { left_kg: before_left_kg, measured: before_measured }: ReadBefore = {};",
        by("frontend/src/records/pass-history.test.ts", "began each stretch with the reading before it"),
    ),
    Planted(
        "bad_row_blocks",
        "One pass that cannot be read makes every call of its spreader refuse.",
        _PASSES,
        "    except EngineError as error:\n        nobody",
        "    except ZeroDivisionError as error:\n        nobody",
        by(_PAST, "test_one_bad_row_never_blocks_a_spreader"),
    ),
    Planted(
        "small_pass_saved",
        "A pass over less ground than the contract takes is offered, and nobody says what to do instead.",
        "frontend/src/features/spreading/model/yard/left.ts",
        'if ("ok" in found || found.area_m2 >= LEAST_PASS_M2) return found;',
        'if ("ok" in found || found.area_m2 >= 0) return found;',
        by(
            "frontend/src/features/spreading/model/least.test.ts",
            "is not saved where it ran out at 1 %, and says what to do",
        ),
    ),
    Planted(
        "contract_not_asked",
        "A pass is saved without asking whether the book takes its figures.",
        "frontend/src/features/spreading/model/spreading.ts",
        '      if (!mayStand("pass", body)) return false;\n',
        "",
        by(
            "frontend/src/features/spreading/model/least.test.ts", "a pass with a figure beyond the contract is refused"
        ),
    ),
)
