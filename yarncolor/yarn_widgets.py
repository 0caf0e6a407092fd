"""Grist, twist and plies under the fingers: the yarn follows, and can be saved."""

from collections.abc import Callable
from html import escape
from math import floor, log10
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.answers import Answer, answer
from yarncolor.balance import WORDS
from yarncolor.body_display import show_twist
from yarncolor.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.plan import Plying
from yarncolor.schema_fields import MOST_PLIES
from yarncolor.twist import tpi
from yarncolor.yarn_drawing import WIDTH_PX, yarn_alt, yarn_png
from yarncolor.yarn_lines import yarn_lines

_LABEL = {"description_width": "16em"}
_WIDE = w.Layout(width="44em")
_BY_SLIDER = "by the slider"
_MEASURED, _AS_TWISTS_ALLOW = "measured", "as the twists allow"
_UNKNOWN_TPI = 0.0
_OTHER_GRISTS = (*("single_m_per_g", "sample", "yarn_m_per_100g", "single_wpi", "yarn_wpi"),)
_OTHER_TWISTS = ("twist_tpm", "twist_angle_deg", "twist_factor")
_STATUS = 'role="status" aria-live="polite" style="min-height:1.5em"'


def yarn_bench(plan_file: str | Path) -> "YarnBench":
    """Return a bench on which grist, twist and plies of a plan's yarn are dragged.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is changed only by the button that says so.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return YarnBench(Editor.opened(plan_file))


class YarnBench(w.VBox):
    """Sliders round one yarn; all that follows is drawn and said.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    def __init__(self, editor: Editor) -> None:
        self.editor, self._quiet = editor, False
        self._measured = editor.plan.plying.contraction
        found = answer(editor.plan)
        self.controls = _controls(found)
        self.drawing = w.Image(
            format="png", layout=w.Layout(width="100%", max_width=f"{WIDTH_PX}px")
        )
        self.said, self.words, self.twist = (w.HTML(layout=w.Layout(width="100%")) for _ in "123")
        self.save = w.Button(description="Save the plan", layout=w.Layout(width="14em"))
        self.save.on_click(lambda _: self._save())
        for key, control in self.controls.items():
            control.observe(self._on_change(key), "value")
        super().__init__(
            [self.drawing, *self.controls.values(), self.save, self.said, self.words, self.twist]
        )
        self._say("")
        self._show(found)

    def __repr__(self) -> str:
        return "A bench for grist, twist and plies of a yarn; it needs a live notebook."

    def _on_change(self, key: str) -> Callable[[dict[str, Any]], None]:
        def changed(change: dict[str, Any]) -> None:
            if self._quiet or _is_noise(self.controls[key], change):
                return
            try:
                self._put(key, change["new"])
            except PlanError as error:
                self._say("; ".join(str(fault) for fault in error.faults))
            else:
                self._say("")
                self._show(answer(self.editor.plan))
            self._follow_balance()

        return changed

    def _follow_balance(self) -> None:
        """Let the chooser of ply twist say what the plan says."""
        self._quiet = True
        self.controls["balance"].value = self.editor.plan.plying.balance or _BY_SLIDER
        self._quiet = False

    def _put(self, key: str, value: Any) -> None:
        """Write one control's value into the plan, in the place of what it stands for."""
        if key == "plies":
            self.editor.change(plies=value)
        elif key == "m_per_100g":
            self.editor.change("spinning", **dict.fromkeys(_OTHER_GRISTS), single_tex=1e5 / value)
        elif key == "single_tpi":
            others = dict.fromkeys(_OTHER_TWISTS)
            self.editor.change("spinning", **others, twist_tpi=value or None)
        elif key == "ply_tpi":
            self.editor.change("plying", twist_tpm=None, balance=None, twist_tpi=value or None)
        elif key == "balance":
            by_slider = value == _BY_SLIDER
            slider = self.controls["ply_tpi"].value if by_slider else None
            self.editor.change(
                "plying",
                twist_tpm=None,
                twist_tpi=slider or None,
                balance=None if by_slider else value,
            )
        elif key == "model":
            measured = self._measured if value == _MEASURED else None
            model = None if value in (_MEASURED, _AS_TWISTS_ALLOW) else value
            self.editor.change("plying", contraction=measured, contraction_model=model)
        else:
            self.editor.change("spinning", **{key: value})

    def _show(self, found: Answer) -> None:
        self.drawing.value = yarn_png(found)
        lines = "".join(f"<p>{escape(line)}</p>" for line in (yarn_alt(found), *yarn_lines(found)))
        self.words.value = lines
        self.twist.value = show_twist(found).html

    def _save(self) -> None:
        try:
            self._say(f"Saved: {self.editor.save().as_posix()}")
        except PlanError as error:
            self._say("; ".join(str(fault) for fault in error.faults))

    def _say(self, words: str) -> None:
        self.said.value = f"<p {_STATUS}>{escape(words)}</p>"


def _controls(found: Answer) -> dict[str, Any]:
    """Return the controls as the plan stands."""
    yarn, plan = found.settled.physics, found.plan
    single = _UNKNOWN_TPI if yarn.twist_tpm is None else tpi(float(yarn.twist_tpm.mean()))
    ply = _UNKNOWN_TPI if yarn.ply_twist_tpm is None else tpi(yarn.ply_twist_tpm)
    grist = 1e5 / float(yarn.tex[0] / yarn.strands[0])
    criteria = [(_BY_SLIDER, _BY_SLIDER), *((words, name) for name, words in WORDS.items())]
    controls = {
        "plies": w.IntSlider(value=yarn.plies, min=1, max=MOST_PLIES),
        "m_per_100g": _slider(grist, (50, 6000, 10)),
        "single_tpi": _slider(single, (0, 30, 0.1)),
        "ply_tpi": _slider(ply, (0, 20, 0.1)),
        "balance": w.Dropdown(options=criteria, value=plan.plying.balance or _BY_SLIDER),
        "model": _models(plan.plying),
        "variation": _slider(plan.spinning.variation or 0.0, (0, 0.3, 0.01)),
        "packed_density_g_per_cm3": _slider(yarn.packed_density_g_per_cm3, (0.1, 1.0, 0.01)),
        "relaxed_density_g_per_cm3": _slider(yarn.relaxed_density_g_per_cm3, (0.05, 1.0, 0.01)),
    }
    for key, control in controls.items():
        control.description, control.style, control.layout = _SAID[key], dict(_LABEL), _WIDE
    controls["plies"].disabled = found.settled.is_chain or found.settled.scheme.name == "free"
    return controls


def _is_noise(control: Any, change: dict[str, Any]) -> bool:
    """Return whether a slider has moved by less than a step: a browser rounds what it is shown."""
    if not isinstance(control, w.FloatSlider):
        return False
    return abs(change["new"] - change["old"]) < control.step / 2


def _models(plying: Plying) -> w.Dropdown:
    """Return the chooser of a model; what the plan measured comes first."""
    measured = plying.contraction is not None
    own = [(f"measured: {plying.contraction:.1%}", _MEASURED)] if measured else []
    options = [
        *own,
        (_AS_TWISTS_ALLOW, _AS_TWISTS_ALLOW),
        ("helices, singles untwisting", "untwisting"),
        ("helices alone", "helix"),
        ("none", "none"),
    ]
    model = plying.contraction_model or _AS_TWISTS_ALLOW
    return w.Dropdown(options=options, value=_MEASURED if measured else model)


_SAID = {
    "plies": "plies",
    "m_per_100g": "single, m in 100 g",
    "single_tpi": "twist of the singles, to the inch",
    "ply_tpi": "ply twist, to the inch",
    "balance": "ply twist chosen",
    "model": "length lost in plying",
    "variation": "unevenness between portions",
    "packed_density_g_per_cm3": "density in the twist, g/cm³",
    "relaxed_density_g_per_cm3": "density on the ruler, g/cm³",
}


def _slider(value: float, span: tuple[float, float, float]) -> w.FloatSlider:
    """Return a slider at the step nearest to a value, so that showing it changes nothing."""
    low, high, step = span
    decimals = max(0, -floor(log10(step)))
    near = round(round(value / step) * step, decimals)
    return w.FloatSlider(
        value=near,
        min=min(low, near),
        max=max(high, near),
        step=step,
        readout_format=f".{decimals}f",
    )
