"""Yarn and fabric under the fingers: along the yarn, on needles, in other light, from afar."""

from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.answers.answer import Answer
from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError, one_line
from yarncolor.files import write_all
from yarncolor.phrases import EYES
from yarncolor.pictures.appearance import STAPLE_M
from yarncolor.pictures.as_knitted import knit_of, times_shown, times_smaller, usual_gauge
from yarncolor.pictures.captions import captioned_png
from yarncolor.pictures.catalogue import PICTURES
from yarncolor.pictures.fonts import key_name
from yarncolor.pictures.painting import Paint
from yarncolor.pictures.shown_part import opening_m
from yarncolor.pictures.view import Rendered, ViewSettings
from yarncolor.plan.reference import KEYS
from yarncolor.report.sheets import swatch_sheet
from yarncolor.report.show.markup import named_colours
from yarncolor.report.why.pictures import picture_seen
from yarncolor.widgets.choosing import Quiet, outcome
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.parts import (
    SAYS_PICTURE,
    EditorView,
    Folded,
    in_rows,
    label,
    status,
    status_asked,
)
from yarncolor.widgets.said_controls import SaidControls

_NAMES = {
    "yarn": "the yarn at true scale",
    "portrait": "a portrait, fibre by fibre",
    "whole": "the whole yarn, folded",
    "wraps": "wraps on a card",
    "skein": "a skein",
    "ball": "a ball",
    "knitted": "knitted",
    "woven": "woven",
}
_TAKES = {
    "portrait": ("from_m", "length_mm"),
    "yarn": ("from_m", "length_mm"),
    "whole": (),
    "wraps": (),
    "skein": (),
    "ball": (),
    "knitted": ("part", "from_m", "kind", "stitches", "rows", "gauge_stitches", "gauge_rows"),
    "woven": ("part", "from_m", "width_mm"),
}
_SMALLER: dict[str, dict[str, Any]] = {"portrait": {"size_px": (1200, 300)}}
"""Sizes at which a picture follows a finger."""

_PARTS = (
    ("the whole yarn, in small", "whole"),
    ("the beginning of the yarn", "beginning"),
    ("the part that is looked at", "looked at"),
)
_KINDS = (
    ("flat, in rows", "flat"),
    ("in the round", "round"),
    ("in the round, as it is worn", "worn"),
    ("a triangle, from the top down", "triangle"),
    ("garter stitch", "garter"),
)
_VIEWS = (
    ("the plain eye", "as it is"),
    ("lightness alone, as a grey photograph", "lightness"),
    *((words, eyes) for eyes, words in EYES.items()),
)
_FINER = ("view", "mottle_percent", "joins_cm")
_LENGTH_MM = 24.0
_FULL = w.Layout(width="100%")


def picture_bench(plan_file: str | Path, out_folder: str | Path = "out") -> "PictureBench":
    """Return a bench that shows a plan's yarn and fabric; the plan is not changed.

    Parameters
    ----------
    plan_file : str or Path
        A plan file.
    out_folder : str or Path
        Where pictures and the swatch sheet are written.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return PictureBench(Editor.opened(plan_file), Path(out_folder))


class PictureBench(EditorView):
    """Choosers and sliders round one picture.

    Parameters
    ----------
    editor : Editor
        The plan that is shown; it is not changed.
    out_folder : Path
        Where pictures are written.
    """

    def __init__(self, editor: Editor, out_folder: Path) -> None:
        self.found, self.out_folder, self._quiet = editor.answer, out_folder, Quiet()
        self._mark_m = editor.mark_m
        self._planned = _planned(self.found, self._mark_m)
        self.controls = _controls(self._planned, _last_m(self.found))
        self._said = SaidControls(self.controls, _MEASURES, _MEASURED_WORDS)
        self._said.follow(self.found.say)
        self.image = w.Image(format="png", layout=w.Layout(width="100%", max_width="1100px"))
        self.caption, self.said = w.HTML(layout=_FULL), w.HTML(layout=_FULL)
        self.caption.add_class(SAYS_PICTURE)
        self.write = w.Button(description="Write this picture", layout=w.Layout(width="14em"))
        self.sheet = w.Button(description="Write the swatch sheet", layout=w.Layout(width="14em"))
        self.write.on_click(
            heard(self, lambda _: self._write(f"{self.controls['picture'].value}.png"))
        )
        self.sheet.on_click(heard(self, lambda _: self._write("swatch.pdf")))
        for key in ("picture", "kind"):
            self.controls[key].observe(
                heard(self, lambda _: self._follow(self.controls["kind"].value)), "value"
            )
        self.controls["from_m"].observe(
            heard(self, lambda _: self._mark(self._said.value("from_m"))), "value"
        )
        for control in self.controls.values():
            control.observe(heard(self, lambda _: self._show()), "value")
        finer = Folded("finer settings", [self.controls[key] for key in _FINER])
        first = [control for key, control in self.controls.items() if key not in _FINER]
        buttons = in_rows([self.write, self.sheet])
        super().__init__(
            editor, [in_rows(first), finer, self.image, self.caption, buttons, self.said]
        )
        self._show()

    def __repr__(self) -> str:
        return "A bench to look at yarn and fabric; it needs a live notebook."

    @property
    def look(self) -> ViewSettings:
        """How pictures are looked at as the controls stand."""
        value = self._said.values()
        paint = Paint(value["mottle_percent"] / 100, value["joins_cm"] / 100)
        return ViewSettings(value["view"], 1.0, value["distance_m"], paint)

    def drawn(self) -> Rendered:
        """Return the picture as the controls stand."""
        value = self._said.values()
        name = value["picture"]
        options = {key: value[key] for key in _TAKES[name] if not key.startswith("gauge")}
        part = options.pop("part", "looked at")
        if "from_m" in options and part != "looked at":
            options["from_m"] = 0.0 if part == "beginning" else None
        if name == "knitted":
            options["gauge"] = (value["gauge_stitches"], value["gauge_rows"])
            options["times"] = self._times(part)
        return PICTURES[name](self.found, look=self.look, **_SMALLER.get(name, {}) | options)

    def _times(self, part: str) -> int:
        """Return for how many stitches one of the knitting stands."""
        if part != "whole":
            return 1
        kind, stitches, rows = (self._said.value(key) for key in ("kind", "stitches", "rows"))
        gauge = (self._said.value("gauge_stitches"), self._said.value("gauge_rows"))
        return times_smaller(self.found, knit_of(self.found, kind, stitches, rows, gauge).fabric)

    def refresh(self) -> None:
        """Show the plan as it stands, and where one looks on it, whoever changed either."""
        if self._mark_m != self.editor.mark_m:
            self._seen = None
        super().refresh()

    def render(self) -> None:
        """Show the plan as it stands by now; what was chosen by hand stays."""
        self.found, self._mark_m = self.editor.answer, self.editor.mark_m
        with self._quiet:
            self._said.follow(self.found.say)
            self.controls["from_m"].max = self._said.shown("from_m", _last_m(self.found))
        kind, own = self.controls["kind"].value, self._planned["kind"]
        self._follow(None if kind == own else kind)
        self._show()

    def _follow(self, kind: str | None = None) -> None:
        """Let controls that no finger has moved say what the plan says of a kind of piece."""
        if self._quiet:
            return
        before = self._planned
        stays = {key for key in before if not self._said.is_at(key, before[key])}
        self._planned = _planned(self.found, self._mark_m, kind, self.controls["picture"].value)
        with self._quiet:
            for key, value in self._planned.items():
                if key not in stays:
                    _put(self.controls[key], self._said.shown(key, value))

    def _mark(self, metre: float) -> None:
        """Look from a metre on, on the strip as well."""
        if not self._quiet:
            self.editor.mark_m = self._mark_m = metre

    def _show(self) -> None:
        if self._quiet:
            return
        taken = set(_TAKES[self.controls["picture"].value])
        if "part" in taken and self.controls["part"].value != "looked at":
            taken.remove("from_m")
        for key in dict.fromkeys(key for keys in _TAKES.values() for key in keys):
            self.controls[key].layout.display = None if key in taken else "none"
        try:
            drawn = self.drawn()
        except PlanError as error:
            self.write.disabled = True
            self._say(one_line(error))
            return
        self.write.disabled = False
        self._say("")
        self.image.value = captioned_png(self.found, drawn, words=False)
        self.caption.value = _caption(self.found, drawn)

    def _write(self, name: str) -> None:
        if name != "swatch.pdf" and self.write.disabled:
            self._say("This picture cannot be drawn; mend what is said above first.")
            return
        self._say(f"Making {name} …")
        self._say(outcome(lambda: write_all(self.out_folder, {name: self._file(name)})))

    def _file(self, name: str) -> bytes:
        if name == "swatch.pdf":
            return swatch_sheet(self.found, look=self.look)
        return captioned_png(self.found, self.drawn())

    def _say(self, words: str) -> None:
        self.said.value = status(words)


def _caption(found: Answer, drawn: Rendered) -> str:
    """Return what a picture says of itself, in letters that stay large on a small screen."""
    names, seen = found.plan.names, picture_seen(found, drawn)
    colours = named_colours(
        ((drawn.srgb[lot], key_name(lot, names)) for lot in drawn.lots), "colours"
    )
    words = f"{drawn.alt} {drawn.caption}"
    return f"{colours}{status_asked(words, seen, 'the picture', found.say)}"


def _planned(
    found: Answer, mark_m: float | None, kind: str | None = None, picture: str = "yarn"
) -> dict[str, Any]:
    """Return where controls stand until a finger comes, by key.

    Parameters
    ----------
    found : Answer
        What follows from the plan.
    mark_m : float, optional
        Where one looks on the yarn; without, where most colours meet.
    kind : str, optional
        What is knitted; by default as in the plan.
    picture : str
        Which picture is shown.
    """
    knit, aspect, _ = knit_of(found, kind)
    is_piece = picture == "knitted" and times_shown(found, knit) == 1
    gauge = (
        found.piece.gauge_stitches if found.piece else round(usual_gauge(found.resolved.yarn)[0], 1)
    )
    looked_m = opening_m(found.layout.stretches, _LENGTH_MM) if mark_m is None else mark_m
    return {
        "part": "beginning" if is_piece else "whole",
        "from_m": round(min(looked_m, _last_m(found)), 2),
        "kind": knit_of(found).fabric.kind,
        "stitches": knit.cast_on,
        "rows": knit.rows,
        "gauge_stitches": gauge,
        "gauge_rows": round(gauge / aspect, 1),
    }


def _last_m(found: Answer) -> float:
    return max(0.01, round(found.layout.stretches.yarn_m - 0.05, 2))


def _put(control: Any, value: float | str) -> None:
    """Set a control to a value of the plan; a slider is made to reach as far."""
    if not isinstance(control, w.Dropdown):
        control.max, control.min = max(control.max, value), min(control.min, value)
    control.value = value


def _controls(planned: dict[str, Any], last_m: float) -> dict[str, Any]:
    controls = {
        "picture": w.Dropdown(options=[(words, name) for name, words in _NAMES.items()]),
        "part": w.Dropdown(options=_PARTS),
        "from_m": w.FloatSlider(min=0.0, max=last_m, step=0.01),
        "length_mm": w.FloatSlider(value=_LENGTH_MM, min=5.0, max=400.0, step=1.0),
        "width_mm": w.FloatSlider(value=300.0, min=50.0, max=1500.0, step=10.0),
        "kind": w.Dropdown(options=_KINDS),
        "stitches": w.IntSlider(min=1, max=400),
        "rows": w.IntSlider(min=1, max=600),
        "gauge_stitches": w.FloatSlider(min=1.0, max=60.0, step=0.1),
        "gauge_rows": w.FloatSlider(min=1.0, max=90.0, step=0.1),
        "distance_m": w.FloatSlider(value=0.0, min=0.0, max=12.0, step=0.1),
        "view": w.Dropdown(options=_VIEWS),
        "mottle_percent": w.IntSlider(value=round(100 * Paint().mottle), min=0, max=50),
        "joins_cm": w.FloatSlider(
            value=round(100 * STAPLE_M), min=0, max=32, step=1, readout_format=".0f"
        ),
    }
    label(controls, _SAID, 14, 37)
    for key, value in planned.items():
        _put(controls[key], value)
    for key in ("length_mm", "width_mm"):
        controls[key].readout_format = ".0f"
    for key in ("distance_m", "gauge_stitches", "gauge_rows"):
        controls[key].readout_format = ".1f"
    return controls


_MEASURES = {
    "from_m": "length",
    "length_mm": "thickness",
    "width_mm": "thickness",
    "gauge_stitches": "gauge",
    "gauge_rows": "gauge",
    "distance_m": "far",
    "joins_cm": "width",
}
_MEASURED_WORDS = {
    "from_m": "looked at from, {unit}",
    "length_mm": "length seen, {unit}",
    "width_mm": "width of the cloth, {unit}",
    "gauge_stitches": "stitches {unit}",
    "gauge_rows": "rows {unit}",
    "distance_m": "seen from how far, {unit}",
    "joins_cm": "length of a join, {unit}",
}
_SAID = {
    "picture": "picture",
    "part": "shown of the yarn",
    "from_m": "looked at from, m",
    "length_mm": "length seen, mm",
    "width_mm": "width of the cloth, mm",
    "kind": "knitted as",
    "stitches": KEYS["fabric", "stitches"].words,
    "rows": "rows",
    "gauge_stitches": KEYS["fabric", "gauge_stitches"].words,
    "gauge_rows": KEYS["fabric", "gauge_rows"].words,
    "distance_m": "seen from how far, m",
    "view": "seen by",
    "mottle_percent": "how uneven the dye is, %",
    "joins_cm": "length of a join, cm",
}
