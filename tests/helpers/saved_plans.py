"""A plan file with something to say on every line, and that plan changed in every way."""

import tomllib
from dataclasses import replace
from datetime import date

import pytest

import yarncolor as yc
from yarncolor.plan import (
    FreePortion,
    Lost,
    Lot,
    Made,
    Plan,
    Plied,
    Plying,
    Sample,
    Scheme,
    Spinning,
    Spun,
    Target,
)
from yarncolor.planfile.save import merged_text

TEXT = """\
# A file with something to say on every line.
title = "Shore" # the title

# --- the stash ---
[[lots]] # the first
name = "Kelp" # olive
colour = "#56612d"
mass_g = 27.0
# Kelp ends here.

# Foam is undyed.
[[lots]]
name = "Foam"
lab = [86.0, 0.5, 8.0]
mass_g = 20

# Wrack comes last.
[[lots]]
name = "Wrack"
colour = "#311"
mass_g = 20    # weighed twice

# --- the scheme ---
[scheme]
name = "fractal"  # what else
sequence = [
    "Kelp", "Foam",  # there
    "Wrack",
]

# --- the singles ---
[spinning]
single_tex = 110.0
# The end.
"""


def plan_of(text: str) -> Plan:
    """Return the plan that a text says."""
    return yc.plan_from_data(tomllib.loads(text))


PLAN = plan_of(TEXT)
KELP, FOAM, WRACK = PLAN.lots
_DUNE = Lot("Dune", 5.0, colour="#c9b48a")
PORTIONS = (FreePortion(1, "Kelp", 2.0), FreePortion(2, "Foam", 2.5))

SPUN = (
    Spun(2, through=1, on=date(2026, 3, 1), note='before "lunch"'),
    Spun(2, row=3, lot="Foam", mass_g=3.4, length_m=31.0, sample=Sample(2.0, 0.21), bobbin=1),
    Spun(2, lot="Kelp", mass_g=3.0),
)


def with_lots(*lots: Lot) -> Plan:
    return replace(PLAN, lots=lots, scheme=replace(PLAN.scheme, sequence=None))


def with_scheme(**options: object) -> Plan:
    return replace(PLAN, scheme=replace(PLAN.scheme, **options))


CHANGED = {
    "another title": replace(PLAN, title="Strand"),
    "no title": replace(PLAN, title=""),
    "a purpose": replace(PLAN, purpose='a "scarf"\nfor me'),
    "a note": with_lots(replace(KELP, note="two pots"), FOAM, WRACK),
    "a note in the last lot": with_lots(KELP, FOAM, replace(WRACK, note="three pots")),
    "lab for hex": with_lots(replace(KELP, colour=None, lab=(40.0, -8.0, 30.0)), FOAM, WRACK),
    "rolags for grams": with_lots(replace(KELP, mass_g=27.0, rolags=9.0, rolag_g=3.0), FOAM, WRACK),
    "a lot renamed": with_lots(KELP, replace(FOAM, name="Φύκι"), WRACK),
    "the first lot gone": with_lots(FOAM, WRACK),
    "the last lot gone": with_lots(KELP, FOAM),
    "a lot at the end": with_lots(KELP, FOAM, WRACK, _DUNE),
    "a lot at the start": with_lots(_DUNE, KELP, FOAM, WRACK),
    "lots turned round": with_lots(WRACK, FOAM, KELP),
    "lots moved, changed and gone": with_lots(WRACK, _DUNE, replace(KELP, mass_g=3.5)),
    "divisions": with_scheme(divisions=(1, (2.0, 1.0), 4)),
    "another sequence": with_scheme(sequence=("Foam", "Kelp", "Foam")),
    "no scheme": replace(PLAN, scheme=Scheme()),
    "the user's own portions": replace(PLAN, scheme=Scheme("free", portions=PORTIONS)),
    "a table more": replace(PLAN, plying=Plying(wound_off=(1, 0, 1), contraction=0.04)),
    "a target": replace(PLAN, target=Target(yarn_m=5e-3)),
    "a table less": replace(PLAN, spinning=Spinning()),
    "what was spun": replace(PLAN, spun=SPUN),
    "what was spun, lost and plied": replace(
        PLAN, spun=SPUN[:1], lost=(Lost("Kelp", 2.5),), plied=Plied(so_far_m=212.0)
    ),
    "where a single ran out": replace(PLAN, plied=Plied(ended_ply=1, at_m=195.5, turn_m=1.5)),
    "what came out": replace(
        PLAN, made=Made(turns=300.0, turn_m=1.5, washed_on=date(2026, 3, 9), picture="a b.jpg")
    ),
    "a number for each ply": replace(PLAN, spinning=Spinning(single_tex=(90.0, 1e3, 110.5))),
}
every_change = pytest.mark.parametrize("changed", CHANGED.values(), ids=CHANGED)


def merged(text: str, plan: Plan) -> str:
    return merged_text(text, plan, "plan.toml")
