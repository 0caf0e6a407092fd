"""What hands do to a plan: how even they are, what becomes of the yarn, what would help."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.answers.evenness import ASSUMED, EVENNESS, evenness_of, in_some_hands
from yarncolor.defaults import DIVIDED, REACH_M
from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.measures import Measures
from yarncolor.pictures.png import png_bytes
from yarncolor.pictures.thick_and_thin import METRES_SHOWN, Hand, lengths_of_single
from yarncolor.plan.reference import KEYS
from yarncolor.report.show.drift import drift_in_words, misfit_shown, yarns_shown
from yarncolor.report.show.fragment import Fragment, Picture
from yarncolor.report.why.hands import assumed_hands
from yarncolor.report.why.seen import as_drawn, seen_in
from yarncolor.said import Figure, said
from yarncolor.widgets.choosing import Quiet, refused
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.parts import SAYS_PICTURE, EditorView, label, status, status_asked
from yarncolor.widgets.plan_bar import WithPlanBar

_OTHER = "as the plan says"
_FULL = w.Layout(width="100%")
_PICTURE_PX, _HANDS_PX = 700, 520
_TOLD = "overflow-x:auto;line-height:1.4"
_SLIDERS = ("variation", "variation_within")


def drift_bench(plan_file: str | Path, out_folder: str | Path = "out") -> WithPlanBar:
    """Return a bench that shows what a spinner's hands do to a plan.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is changed only where that is asked for.
    out_folder : str or Path
        Where a plan goes that has no file yet.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return WithPlanBar.opened(plan_file, out_folder, lambda editor, _: DriftBench(editor))


class DriftBench(EditorView):
    """Three singles to choose from, two sliders, and what such hands make of the plan.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    def __init__(self, editor: Editor) -> None:
        self._quiet = Quiet()
        self.hands = w.Image(
            format="png", layout=w.Layout(width="100%", max_width=f"{_HANDS_PX}px")
        )
        names = [one.name for one in EVENNESS]
        self.controls: dict[str, Any] = {
            "evenness": w.RadioButtons(options=[*names, _OTHER]),
            "variation": _slider(30, 0.5, ".1f"),
            "variation_within": _slider(80, 1, ".0f"),
            "divided": w.Dropdown(options=_choices()),
        }
        label(self.controls, _SAID, 19)
        self.whose, self.told, self.asked = (w.HTML(layout=_FULL) for _ in "123")
        self.yarns, self.apart = _picture(_PICTURE_PX), _picture(_PICTURE_PX)
        self.said_yarns, self.said_apart = (w.HTML(layout=_FULL) for _ in "12")
        for words in (self.asked, self.said_yarns, self.said_apart):
            words.add_class(SAYS_PICTURE)
        for key, control in self.controls.items():
            control.observe(heard(self, self._on_change(key)), "value")
        chosen = [_together(self.asked, self.hands), *self.controls.values(), self.whose]
        shown = [self.told, _together(self.yarns, self.said_yarns)]
        shown.append(_together(self.apart, self.said_apart))
        super().__init__(editor, [*chosen, *shown])
        self._show_hands()
        self.render()

    def __repr__(self) -> str:
        return "What hands do to a plan; it needs a live notebook."

    def _on_change(self, key: str) -> Callable[[dict[str, Any]], None]:
        def changed(change: dict[str, Any]) -> None:
            if self._quiet:
                return
            try:
                self.editor.change_tables({"spinning": _figures(key, change["new"])}, key)
            except PlanError as error:
                self.whose.value = status(f"{refused(_SAID[key], error)}. Left as it was.")
            self.refresh()
            self._set_controls()

        return changed

    def render(self) -> None:
        """Show what the plan's hands make of it; where it does not say, what most would."""
        found, assumed = in_some_hands(self.editor.answer)
        self._set_controls()
        self.whose.value = self._whose(assumed)
        told = drift_in_words(found, explained=True, assumed=assumed)
        self.told.value = f'<div style="{_TOLD}">{told.html}</div>'
        say, px = found.say, _PICTURE_PX
        yarns = yarns_shown(found, width_px=px, assumed=assumed)
        _put(self.yarns, self.said_yarns, yarns, "yarns by these hands", say)
        apart = misfit_shown(found, px, assumed)
        _put(self.apart, self.said_apart, apart, "how far plies fall apart", say)

    def _show_hands(self) -> None:
        """Show the three that one chooses from; they are the same for every plan."""
        hands = [Hand(one.name, one.variation_within) for one in EVENNESS]
        say = self.editor.answer.say
        words = said(
            "How even are you? {single} of single from each of three pairs of hands: "
            f"{', '.join(one.name for one in EVENNESS)}. Choose the one that looks like yours.",
            single=Figure(say.length(METRES_SHOWN, 0), "single"),
        )
        image = lengths_of_single(hands, REACH_M, _HANDS_PX)
        self.hands.value = png_bytes(image, "", str(words))
        seen = seen_in([words], {"single": as_drawn("single")})
        self.asked.value = status_asked(str(words), seen, "single from three pairs of hands", say)

    def _whose(self, assumed: bool) -> str:
        plan, say = self.editor.answer.plan, self.editor.answer.say
        if assumed:
            seen = seen_in([_ASSUMED_HANDS], dict.fromkeys(("between", "along"), assumed_hands()))
            return status_asked(str(_ASSUMED_HANDS), seen, "hands that are assumed", say)
        if "variation" in plan.by_hands:
            own = f"By your own hands, as {plan.hand} says." if plan.hand else "By your own hands."
            return status(own)
        return status("As the plan says. Samples and weighed pieces tell more than a picture does.")

    def _set_controls(self) -> None:
        """Let every control say what the plan says: what was refused goes back."""
        plan, chosen = self.editor.answer.plan, evenness_of(self.editor.answer.plan)
        with self._quiet:
            for key in _SLIDERS:
                per_cent = (getattr(plan.spinning, key) or 0.0) * 100
                self.controls[key].max = max(self.controls[key].max, per_cent)
                self.controls[key].value = per_cent
            self.controls["divided"].value = plan.spinning.divided or DIVIDED
            other = None if self.editor.answer.drift_at_hand is None else _OTHER
            self.controls["evenness"].value = chosen.name if chosen else other


def _picture(width_px: int) -> w.Image:
    return w.Image(format="png", layout=w.Layout(width="100%", max_width=f"{width_px}px"))


def _together(first: w.Widget, second: w.Widget) -> w.VBox:
    """Return a picture and its words, so that the page knows them as one."""
    return w.VBox([first, second], layout=w.Layout(width="100%", overflow="visible"))


def _slider(most: float, step: float, digits: str) -> w.FloatSlider:
    """Return a slider that tells where fingers rest, since many yarns are spun for it."""
    return w.FloatSlider(min=0, max=most, step=step, readout_format=digits, continuous_update=False)


def _figures(key: str, value: Any) -> dict[str, Any]:
    """Return what a control says, as keys of the plan's spinning."""
    if key == "divided":
        return {"divided": None if value == DIVIDED else value}
    if key in _SLIDERS:
        return {key: round(value / 100, 4)}
    hands = next((one for one in EVENNESS if one.name == value), None)
    if hands is None:
        return {}
    return {"variation": hands.variation, "variation_within": hands.variation_within}


def _put(
    image: w.Image, words: w.HTML, shown: Picture | Fragment, about: str, say: Measures
) -> None:
    """Show a picture with its words and what tells why of them, or the words alone."""
    image.layout.display = None if isinstance(shown, Picture) else "none"
    if isinstance(shown, Picture):
        image.value = shown.png
        words.value = status_asked(shown.alt, shown.seen, about, say)
    else:
        words.value = shown.html


def _choices() -> list[tuple[str, str]]:
    return [(words, value) for value, words in KEYS["spinning", "divided"].choices]


_ASSUMED_HANDS = said(
    "The plan does not say how even your hands are. What stands below is assumed: hands that spin "
    f"{ASSUMED.name}, {{between}} between portions and {{along}} along one.",
    between=Figure(f"{ASSUMED.variation:.0%}", "between"),
    along=Figure(f"{ASSUMED.variation_within:.0%}", "along"),
)
_SAID = {
    "evenness": "how even are you?",
    "variation": KEYS["spinning", "variation"].words,
    "variation_within": KEYS["spinning", "variation_within"].words,
    "divided": KEYS["spinning", "divided"].words,
}
