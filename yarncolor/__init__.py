"""A planning bench for handspinners who dye their own fibre.

A plan file says what is in the drawer and how it is to be spun; `answer` says what follows.
Names are resolved on first use, so that importing the package is light.
"""

from importlib import import_module
from typing import Any

__version__ = "0.1.0"

_HOME = {
    "Box": "fibre_colours",
    "Conditions": "photo_demo",
    "PlanError": "errors",
    "advice_on": "advice",
    "answer": "answers",
    "bench": "whole_bench",
    "by_target": "corrections",
    "by_white": "corrections",
    "comparison_bench": "comparison_widgets",
    "comparison_sheet": "sheets",
    "demo_photo": "photo_demo",
    "fabric_svg": "fabric_shapes",
    "for_the_piece": "targets",
    "light_by_white": "uneven_light",
    "lots_bench": "lots_editor",
    "lot_from": "photo_lots",
    "miniature": "targets",
    "mixing_bench": "mixing_widgets",
    "open_photo": "photographs",
    "order_bench": "widgets",
    "photo_bench": "photo_widgets",
    "picture_bench": "picture_widgets",
    "plan_from_data": "planfile",
    "plan_json": "tables",
    "proposals": "photo_proposals",
    "read_boxes": "photo_lots",
    "read_plan": "planfile",
    "save_plan": "saving",
    "seen_as": "answers",
    "show_advice": "display",
    "show_bobbins": "body_display",
    "show_comparison": "picture_display",
    "show_counts": "body_display",
    "show_differences": "comparison_display",
    "show_drawing": "body_display",
    "show_fabric": "body_display",
    "show_hours": "body_display",
    "show_known": "body_display",
    "show_mixtures": "colour_display",
    "show_moisture": "body_display",
    "show_pairs": "colour_display",
    "show_photo": "photo_display",
    "show_picture": "picture_display",
    "show_proposals": "photo_display",
    "show_readings": "photo_display",
    "show_sheet": "picture_display",
    "show_side_by_side": "comparison_display",
    "show_skeins": "body_display",
    "show_stash": "display",
    "show_steps": "colour_display",
    "show_strip": "display",
    "show_stripes": "picture_display",
    "show_twins": "colour_display",
    "show_twist": "body_display",
    "show_weigh_out": "display",
    "show_weigh_points": "body_display",
    "show_yarn": "display",
    "strip_alt": "strips",
    "strip_png": "strips",
    "strip_svg": "strips",
    "summary_text": "summary",
    "swatch_sheet": "sheets",
    "to_dict": "answer_dict",
    "uncorrected": "corrections",
    "under_scheme": "targets",
    "variant": "variants",
    "with_lot": "photo_lots",
    "write_answer": "exports",
    "yarn_bench": "yarn_widgets",
    "yarn_png": "yarn_drawing",
}

__all__ = sorted(_HOME)  # noqa: PLE0605


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"yarncolor.{_HOME[name]}"), name)


def __dir__() -> list[str]:
    return [*__all__, "__version__"]
