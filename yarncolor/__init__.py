"""A planning bench for handspinners who dye their own fibre.

A plan file says what is in the drawer and how it is to be spun; `answer` says what follows.

- `read_plan`, `plan_from_data`: a plan from a file or from a dict of the same keys
- `variant`, `miniature`, `for_the_piece`: the same stash another way, from ten grams, or as much as
  a knitted piece takes
- `save_plan`: back into its file, comments and all
- `PlanError`: every fault of a plan at once, each with what would be right
- `answer`: what follows from a plan; `seen_as` for other eyes
- `advice_on`, `summary_text`, `to_dict`: what to mind, all of it in words, all of it as data
- `write_answer`: card, tables and pictures into a folder

Everything else has a house of its own: `show` (what notebooks show), `bench` (what is dragged and
typed), `orders` (which order is best), `wheel` (going on from what is spun), `record` (what came
out), `draw` (pictures as bytes), `photo` (colours from photographs), `yarn` and `colour` (the
formulas). Names are resolved on first use, so that importing the package is light.

Examples
--------
>>> import yarncolor as yc
>>> tideline = yc.answer(yc.read_plan("sample_data/tideline.toml"))
>>> f"{yc.to_dict(tideline)['yarn']['length_m']:.0f} m of yarn"
'537 m of yarn'
"""

import lazy_loader

__version__ = "0.1.0"

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
