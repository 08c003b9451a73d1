"""The bench of the season's planner: yards of distinct groups, how soon a plan is known to be within 1 %."""
