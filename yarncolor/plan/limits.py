"""How much a plan file may hold."""

MOST_LOTS, MOST_PLACES, MOST_PORTIONS = 500, 500, 20_000
MOST_LOTS_AND_STEPS = 1000
MOST_PLIES, MOST_REPEATS, MOST_WINDINGS, MOST_COPIES = 12, 64, 9, 8
MOST_ROWS = 100_000

LEAST_GRAMS, MOST_GRAMS = 0.001, 100_000
"""Of a lot, and of what is to be made; the least is below what any scale shows."""

ROUNDING = 1e-9
"""By what share a product of two given numbers, as of rolags and grams, may miss a third."""

LEAST_PORTION_G, MOST_GROSS_G = 1e-6, 1_000_000
LEAST_M, MOST_M = 1e-6, 1_000_000
"""Of single or yarn that was measured."""

LEAST_PART, MOST_PARTS = 0.001, 1_000_000
FINEST_TEX, THICKEST_TEX = 1, 50_000
LONGEST_NAME, LONGEST_NOTE, LONGEST_TITLE = 60, 2000, 120
MOST_SEED = 2**63 - 1
"""A signed number of 64 bits, as TOML has them."""
