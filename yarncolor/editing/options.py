"""The options of a plan as a form shows them: which, in what order, and when they matter."""

from typing import Any

from yarncolor.defaults import scheme_name
from yarncolor.plan import Plan, to_data
from yarncolor.plan.key import Key
from yarncolor.plan.reference import KEYS, ROWS

_ELSEWHERE = (("scheme", "name"), ("scheme", "plies"))
"""Chosen where the order is."""

_OTHER_TABLES = ("lots", "orders", "plied", *ROWS)
"""Lots stand in rows of their own, and so does what an order is to obey; the others say what
happened at the wheel."""

_FIRST: dict[str, tuple[str, ...]] = {
    "scheme": ("divisions", "closing", "copies", "reversed_plies", "stagger_places", "blend_steps",
               "solid_plies", "solid_lot", "random_seed", "pieces", "loop_m", "ply", "from", "to",
               "times", "stripes", "repeat"),
    "braid": ("mass_g", "segments", "repeats"),
    "spinning": ("single_m_per_g", "single_tex", "single_wpi", "sample", "yarn_m_per_100g",
                 "yarn_wpi", "twist_tpi", "twist_tpm", "twist_angle_deg", "twist_factor",
                 "wrapped_skein", "relaxed_density_g_per_cm3", "minutes_per_g",
                 "treadles_per_min", "drive_ratio", "direction"),
    "fabric": ("kind", "width_cm", "stitches", "rows", "gauge_stitches", "gauge_rows", "swatch"),
    "plying": ("twist_tpi", "twist_tpm", "balance", "contraction", "contraction_model",
               "treadles_per_min", "drive_ratio", "wound_off", "direction"),
}  # fmt: skip
"""What a form shows before the rest of a table, and in this order."""


def options_of(plan: Plan) -> tuple[Key, ...]:
    """Return the options that matter for a plan's scheme, and those that it gives anyway."""
    name = scheme_name(plan.scheme)
    data = to_data(plan)
    return tuple(
        key
        for key in OPTIONS
        if not key.schemes or name in key.schemes or given(data, key) is not None
    )


def given(data: dict[str, Any], option: Key) -> Any:
    """Return what a plan's data give for an option; None where nothing.

    Parameters
    ----------
    data : dict
        Tables of a plan file.
    option : Key
        One of its keys.
    """
    table = data if not option.table else data.get(option.table, {})
    return table.get(option.name)


def _place(key: Key) -> tuple[int, int]:
    """Return where a key stands in its table; one that is not told goes to its heading."""
    order = _FIRST.get(key.table, ())
    if key.name in order:
        return order.index(key.name), 0
    told = (KEYS[key.table, name].heading for name in order if key.heading)
    beside = [at for at, heading in enumerate(told) if heading == key.heading]
    return max(beside, default=len(order)), 1


OPTIONS: tuple[Key, ...] = tuple(
    key
    for table in dict.fromkeys(table for table, _ in KEYS if table not in _OTHER_TABLES)
    for key in sorted((key for key in KEYS.values() if key.table == table), key=_place)
    if (key.table, key.name) not in _ELSEWHERE
)
"""In the order in which a form shows them, table by table."""
