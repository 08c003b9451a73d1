"""How far apart jobs on one piece of grass belong where no label entered says it, and what no label allows.

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

# Most that a label could allow in one application [kg/m2], for what was entered without the label's own rate.
N_MOST_KG_M2 = (0.01952971, "illinois_n")  # 4 lb per 1,000 ft2: the most published for a whole year
LIME_MOST_KG_M2 = (0.4882428, "PSU-HLM")  # 100 lb per 1,000 ft2
SEED_MOST_KG_M2 = (0.1171783, "TAMU-OVERSEED")  # twice the highest published, 12 lb: coated seed is half coat
GRANULES_MOST_KG_M2 = (0.4882428, "common practice")  # 4 lb of nitrogen from the poorest granules, 4 %
