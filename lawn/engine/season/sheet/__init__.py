"""The year as it is drawn: what each group needs, has and gets week by week, and what moving a step would break."""

from lawn.engine.core.glossary import add

add({"move_weeks": ("weeks a step is moved", "weeks", -60, 60)})
