"""Grist, twist and plies under the fingers: the yarn follows, and can be saved."""

from collections.abc import Callable
from html import escape
from math import floor, log10
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.answers.answer import Answer
from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.phrases import MODEL_WORDS, join_words
from yarncolor.pictures.cross_section import WIDTH_PX, yarn_drawn, yarn_png
from yarncolor.plan import Plan, Plying
from yarncolor.plan.limits import MOST_PLIES
from yarncolor.plan.reference import KEYS
from yarncolor.plan.scheme import WITHOUT_PLIES
from yarncolor.report.advice import advice_on
from yarncolor.report.show.asked import asked_together
from yarncolor.report.show.yarn import show_known, show_twist
from yarncolor.report.why.advice import advice_seen
from yarncolor.report.why.yarn_sentences import yarn_seen
from yarncolor.report.yarn_lines import yarn_told
from yarncolor.units import tpi
from yarncolor.widgets.choosing import Quiet, refused
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.parts import SAYS_PICTURE, EditorView, beside, grey, label, status
from yarncolor.widgets.plan_bar import WithPlanBar
from yarncolor.widgets.remedies import Remedies
from yarncolor.widgets.said_controls import SaidControls
from yarncolor.yarn.balance import WORDS
from yarncolor.yarn.given import GRIST_WAYS, TWIST_WAYS

_FIXED = "the scheme says how many plies there are"
_LISTS = "the plan says it for each ply: change it in Every option"
_BY_SLIDER = "by the slider"
_MEASURED, _AS_TWISTS_ALLOW = "measured", "as the twists allow"
_UNKNOWN_TPI = 0.0
_SCROLLED = '<div style="overflow-x:auto;margin-top:1em">{}</div>'


def yarn_bench(plan_file: str | Path, out_folder: str | Path = "out") -> WithPlanBar:
    """Return a bench on which grist, twist and plies of a plan's yarn are dragged.

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
    return WithPlanBar.opened(plan_file, out_folder, lambda editor, _: YarnBench(editor))


class YarnBench(EditorView):
    """Sliders round one yarn; all that follows is drawn and said.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    def __init__(self, editor: Editor) -> None:
        self._quiet = Quiet()
        self._measured, self._dropped = editor.plan, ""
        found = editor.answer
        self.controls = _controls(found)
        self._said = SaidControls(self.controls, {"m_per_100g": "grist"}, _MEASURED_WORDS)
        self.drawing = w.Image(
            format="png", layout=w.Layout(width="100%", max_width=f"{WIDTH_PX}px")
        )
        self.said, self.words, self.asked, self.twist = (
            w.HTML(layout=w.Layout(width="98%")) for _ in "1234"
        )
        self.words.add_class(SAYS_PICTURE)
        self.remedies = Remedies(editor)
        for key, control in self.controls.items():
            control.observe(heard(self, self._on_change(key)), "value")
        seen = beside([self.drawing], [*self.controls.values()])
        shown = [seen, self.said, self.words, self.asked, self.remedies, self.twist]
        super().__init__(editor, shown)
        self._say("")
        self.render()

    def __repr__(self) -> str:
        return "A bench for grist, twist and plies of a yarn; it needs a live notebook."

    def _on_change(self, key: str) -> Callable[[dict[str, Any]], None]:
        def changed(change: dict[str, Any]) -> None:
            if self._quiet or _is_noise(self.controls[key], change):
                return
            try:
                self._put(key, self._said.value(key))
            except PlanError as error:
                self._say(f"{refused(self.controls[key].words, error)}. Left as it was.")
            else:
                self._say(self._dropped)
            self.refresh()
            self._set_controls()

        return changed

    def render(self) -> None:
        """Show the plan of the editor as it stands by now."""
        self._show(self.editor.answer)
        self._set_controls()

    def _set_controls(self) -> None:
        """Let every control say what the plan says: what was refused goes back."""
        with self._quiet:
            self._said.follow(self.editor.answer.say)
            for key, value in _values(self.editor.answer).items():
                _set(self.controls[key], self._said.shown(key, value))

    def _put(self, key: str, value: Any) -> None:
        """Write one control's value into the plan, in the place of what it stands for."""
        self._dropped = ""
        if key == "variation":
            tables = {"spinning": {"variation": round(value / 100, 4)}}
        elif key.endswith("density_g_per_cm3"):
            tables = {"spinning": {key: round(value, 4), **_no_skein(key)}}
        elif key == "model":
            measured = self._measured.plying.contraction if value == _MEASURED else None
            model = None if value in (_MEASURED, _AS_TWISTS_ALLOW) else value
            tables = {"plying": {"contraction": measured, "contraction_model": model}}
        else:
            tables = self._another_yarn(key, value)
        self.editor.change_tables(tables, key)

    def _another_yarn(self, key: str, value: Any) -> dict[str, dict[str, Any]]:
        """Return other grist, twist or plies, without what was measured on the file's yarn."""
        tables: dict[str, dict[str, Any]] = {"spinning": {}, "plying": {}, "fabric": {}}
        if key == "m_per_100g":
            tables["spinning"] = dict.fromkeys(GRIST_WAYS)
            tables["spinning"]["single_m_per_g"] = round(value / 100, 4)
        elif key == "single_tpi":
            tables["spinning"] = dict.fromkeys(TWIST_WAYS)
            tables["spinning"]["twist_tpi"] = round(value, 4) or None
        elif key == "ply_tpi":
            tables["plying"] = {"twist_tpm": None, "balance": None}
            tables["plying"]["twist_tpi"] = round(value, 4) or None
        elif key == "balance":
            slider = self.controls["ply_tpi"].value if value == _BY_SLIDER else None
            tables["plying"] = {
                "twist_tpm": None,
                "twist_tpi": round(slider, 4) if slider else None,
            }
            tables["plying"]["balance"] = None if value == _BY_SLIDER else value
        self._leave_out_measured(key, tables)
        scheme = {"plies": value} if key == "plies" else {}
        return {"scheme": scheme, **tables}

    def _leave_out_measured(self, key: str, tables: dict[str, dict[str, Any]]) -> None:
        plan, dropped = self.editor.plan, []
        if plan.plying.contraction is not None:
            tables["plying"]["contraction"] = None
            dropped.append("the length lost in plying")
        if plan.fabric.swatch is not None:
            tables["fabric"]["swatch"] = None
            dropped.append("the swatch")
        if plan.spinning.minutes_per_g is not None and key in ("m_per_100g", "single_tpi"):
            tables["spinning"]["minutes_per_g"] = None
            dropped.append(f"the minutes for {_A_MASS[self.editor.answer.say.mass.unit]}")
        if plan.spinning.sample is not None and key == "m_per_100g":
            dropped.append("the weighed sample")
        if dropped:
            self._dropped = (
                f"Measured on the yarn of the file and left out here: {join_words(dropped)}. The "
                "file changes only when you save."
            )

    def _show(self, found: Answer) -> None:
        self.drawing.value = yarn_png(found)
        figures = [yarn_drawn(found), *yarn_told(found)]
        advice = advice_on(found)
        lines = (*map(str, figures), *(item.text for item in advice))
        told = "".join(f"<li>{escape(line)}</li>" for line in lines)
        self.words.value = f'<ul style="margin:0;padding-left:1.4em;line-height:1.4">{told}</ul>'
        seen = (*yarn_seen(found, figures), *advice_seen(found, advice))
        self.asked.value = asked_together(seen, "the yarn", found.say)
        self.remedies.show(found)
        numbers = [show(found, explained=True).html for show in (show_known, show_twist)]
        self.twist.value = "".join(map(_SCROLLED.format, numbers))

    def _say(self, words: str) -> None:
        self.said.value = status(words)


def _controls(found: Answer) -> dict[str, Any]:
    """Return the controls as the plan stands."""
    plan, value = found.plan, _values(found)
    criteria = [(_BY_SLIDER, _BY_SLIDER), *((words, name) for name, words in WORDS.items())]
    controls = {
        "plies": w.IntSlider(value=value["plies"], min=1, max=MOST_PLIES),
        "m_per_100g": _slider(value["m_per_100g"], (50, 6000, 10)),
        "single_tpi": _slider(value["single_tpi"], (0, 30, 0.1)),
        "ply_tpi": _slider(value["ply_tpi"], (0, 20, 0.1)),
        "balance": w.Dropdown(options=criteria, value=value["balance"]),
        "model": w.Dropdown(options=_models(plan.plying), value=value["model"]),
        "variation": _slider(value["variation"], (0, 30, 1)),
        "packed_density_g_per_cm3": _slider(value["packed_density_g_per_cm3"], (0.1, 1.0, 0.01)),
        "relaxed_density_g_per_cm3": _slider(value["relaxed_density_g_per_cm3"], (0.05, 1.0, 0.01)),
    }
    label(controls, _SAID, 24)
    fixed = found.resolved.is_chain or found.resolved.scheme.name in WITHOUT_PLIES
    grey(controls["plies"], _FIXED if fixed else _LISTS if _lists(plan) else "")
    for key in _lists(plan):
        grey(controls[key], _LISTS)
    return controls


def _values(found: Answer) -> dict[str, Any]:
    """Return what each control says of a plan; of unlike plies the mean."""
    yarn, plan = found.resolved.yarn, found.plan
    measured = plan.plying.contraction is not None
    return {
        "plies": yarn.plies,
        "m_per_100g": 1e5 / float(yarn.strand_tex.mean()),
        "single_tpi": _UNKNOWN_TPI if yarn.twist_tpm is None else tpi(float(yarn.twist_tpm.mean())),
        "ply_tpi": _UNKNOWN_TPI if yarn.ply_twist_tpm is None else tpi(yarn.ply_twist_tpm),
        "balance": plan.plying.balance or _BY_SLIDER,
        "model": _MEASURED if measured else plan.plying.contraction_model or _AS_TWISTS_ALLOW,
        "variation": (plan.spinning.variation or 0.0) * 100,
        "packed_density_g_per_cm3": yarn.packed_density_g_per_cm3,
        "relaxed_density_g_per_cm3": yarn.relaxed_density_g_per_cm3,
    }


def _lists(plan: Plan) -> list[str]:
    """Return the controls that cannot move, since the plies are unlike: the file lists each."""
    spinning, several = plan.spinning, []
    if any(isinstance(getattr(spinning, key), tuple) for key in GRIST_WAYS):
        several.append("m_per_100g")
    if any(isinstance(getattr(spinning, key), tuple) for key in TWIST_WAYS):
        several.append("single_tpi")
    return several


def _set(control: Any, value: Any) -> None:
    """Let a control say a value; a slider that is within half a step of it stays."""
    if not isinstance(control, w.FloatSlider):
        control.value = value
    elif abs(control.value - value) > control.step / 2:
        control.min, control.max = min(control.min, value), max(control.max, value)
        control.value = value


def _no_skein(key: str) -> dict[str, None]:
    """Return the wrapped skein as gone where the density on the ruler is set by hand."""
    return {"wrapped_skein": None} if key.startswith("relaxed") else {}


def _is_noise(control: Any, change: dict[str, Any]) -> bool:
    """Return whether a slider has moved by less than a step: a browser rounds what it is shown."""
    if not isinstance(control, w.FloatSlider):
        return False
    return abs(change["new"] - change["old"]) < control.step / 2


def _models(plying: Plying) -> list[tuple[str, str]]:
    """Return the choices of a model; what the plan measured comes first."""
    measured = plying.contraction is not None
    own = [(f"measured: {plying.contraction:.1%}", _MEASURED)] if measured else []
    models = [(words, model) for model, words in MODEL_WORDS.items()]
    return [*own, (_AS_TWISTS_ALLOW, _AS_TWISTS_ALLOW), *models]


_A_MASS = {"g": "a gram", "oz": "an ounce"}
_MEASURED_WORDS = {"m_per_100g": "grist of the singles, {unit}"}
_SAID = {
    "plies": "plies",
    "m_per_100g": "grist of the singles, m in 100 g",
    "single_tpi": "twist of the singles, to the inch; 0: not known",
    "ply_tpi": "ply twist, to the inch; 0: not known",
    "balance": "ply twist chosen",
    "model": "length lost in plying",
    "variation": KEYS["spinning", "variation"].words,
    "packed_density_g_per_cm3": KEYS["spinning", "packed_density_g_per_cm3"].words,
    "relaxed_density_g_per_cm3": KEYS["spinning", "relaxed_density_g_per_cm3"].words,
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
