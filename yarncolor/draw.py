"""Pictures, sheets and tables as bytes and text, for files and other programs.

All but the last take what `yarncolor.answer` returns; `yarncolor.write_answer` writes them all,
the sheets to share where they are named.

The strip: every ply over the whole length, and the plied yarn

- `strip_png`: as a PNG
- `strip_svg`: as an SVG whose names can be selected
- `strip_alt`: in words, for who cannot see it

Yarn and fabric

- `yarn_png`: a cut through the yarn, its side and a single, drawn large
- `fabric_svg`: a knitted piece, stitch by stitch, as an SVG

To print and to keep

- `swatch_sheet`: an A5 sheet of yarn, wraps, fabric and lots, as PDF, SVG or PNG
- `share_sheet`: a sheet for others to look at, as PNG, or as PDF in A5 or half a letter sheet
- `plan_json`: all numbers, for other programs
- `comparison_sheet`: several plans on one scale, from pairs of name and answer

Examples
--------
>>> import yarncolor as yc
>>> yc.draw.strip_png(yc.answer(yc.read_plan("sample_data/tideline.toml")))[1:4]
b'PNG'
"""

from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.cross_section import yarn_png
from yarncolor.pictures.fabric_svg import fabric_svg
from yarncolor.pictures.strip import strip_png
from yarncolor.pictures.strip_svg import strip_svg
from yarncolor.report.csv_json import plan_json
from yarncolor.report.share.sheet import share_sheet
from yarncolor.report.sheets import comparison_sheet, swatch_sheet

__all__ = [
    "comparison_sheet",
    "fabric_svg",
    "plan_json",
    "share_sheet",
    "strip_alt",
    "strip_png",
    "strip_svg",
    "swatch_sheet",
    "yarn_png",
]
