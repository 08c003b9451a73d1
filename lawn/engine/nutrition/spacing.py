"""How far apart jobs on one piece of grass belong where no label entered says it.

Each row: days, source key. Common practice unless published; where sources differ, the careful one.
"""

FEED_DAYS = (7, "common practice")  # two feeds of any product, by anybody
QUICK_DAYS = (28, "common practice")  # quick nitrogen is added up over so many days and held against one feed's ceiling
ALL_DAYS = (42, "common practice")  # all nitrogen likewise
YEAR_DAYS = (365, "definition")
PRE_DAYS = (60, "clemson_pc")  # a pre-emergent protects about so long
SOW_DAYS = (112, "keeley_2005")  # the longest of the published waits: prodiamine before slit seeding, 16 weeks
YOUNG_DAYS = (90, "MAINE-SEED")  # the slowest home grass is established by then, mown or not
YOUNG_MOWS = (3, "clemson_herb")
LIME_DAYS = (182, "NC-GASTER")  # the rest of the lime half a year later
LIME_NITROGEN_DAYS = (14, "common practice")  # lime drives ammonia out of urea and ammonium
