"""Pictures, sheets and tables as bytes and text, for files and other programs.

TODO
"""

from yarncolor.pictures.cross_section import yarn_png
from yarncolor.pictures.fabric_svg import fabric_svg
from yarncolor.pictures.strip import strip_alt, strip_png, strip_svg
from yarncolor.report.csv_json import plan_json
from yarncolor.report.sheets import comparison_sheet, swatch_sheet

__all__ = [
    "comparison_sheet",
    "fabric_svg",
    "plan_json",
    "strip_alt",
    "strip_png",
    "strip_svg",
    "swatch_sheet",
    "yarn_png",
]
