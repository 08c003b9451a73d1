"""`manage.py plan`: the demo's season with reasons, bags, cost and gap, and no rule broken."""

from datetime import date
from io import StringIO

import pytest
from django.core.management import call_command


@pytest.mark.parametrize("today", ["2027-03-01", "2026-11-30"])
def test_the_demo_s_season_is_planned_explained_and_keeps_the_rules(today: str) -> None:
    out = StringIO()
    call_command("plan", household="demo", explain=True, today=date.fromisoformat(today), stdout=out)
    lines = out.getvalue().splitlines()
    steps = [at for at, line in enumerate(lines) if line.startswith("  20")]
    assert len(steps) >= 5
    assert all(lines[at + 1].startswith("      ") for at in steps), "a step without a reason"
    assert lines[-1] == "Rules checked: nothing is broken."
    assert any(line.startswith("Cost: ") for line in lines)
    assert "Bags to buy:" in lines
    assert "Left over:" in lines
    assert "The gap is" in lines[-2]
