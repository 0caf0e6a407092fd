"""A planning bench for handspinners who dye their own fibre.

A plan file says what is in the drawer and how it is to be spun; `answer` says what follows.

    import yarncolor as yc

    plan = yc.read_plan("tideline.toml")
    found = yc.answer(plan)
    yc.show.strip(found)

`read_plan` and `plan_from_data` make plans, `variant`, `miniature` and `for_the_piece` others of
them, `save_plan` keeps one. `answer` says what follows, `seen_as` for other eyes, `advice_on` what
to mind; `summary_text` and `to_dict` give it as words and data, `write_answer` as files. What a
spinner can mend is a `PlanError`.

Everything else has a house of its own: `show` (what notebooks show), `bench` (what is dragged and
typed), `draw` (pictures as bytes), `photo` (colours from photographs), `yarn` and `colour` (the
formulas). Names are resolved on first use, so that importing the package is light.
"""

import lazy_loader

__version__ = "0.1.0"

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
