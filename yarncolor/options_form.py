"""Every option of a plan as a form: checked as it is typed, each fault beside its field."""

from pathlib import Path
from typing import Any

from yarncolor.answers import answer
from yarncolor.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.live import Live, module
from yarncolor.options import LINES, OPTIONS, PORTIONS, Option, options_of, text_of, value_of
from yarncolor.plan import to_data
from yarncolor.plan_bar import Kept
from yarncolor.planfile import plan_from_data

GROUPS = {
    "": "The plan",
    "scheme": "The scheme",
    "spinning": "Spinning",
    "plying": "Plying",
    "bobbins": "Bobbins",
    "scale": "Scale",
    "target": "What is wanted",
    "fabric": "Fabric",
}
_BY_NAME = {f"{one.table}.{one.key}": one for one in OPTIONS}


def options_bench(plan_file: str | Path, out_folder: str | Path = "out") -> Kept:
    """Return a form of every option of a plan file; it is changed only when it is saved.

    Parameters
    ----------
    plan_file : str or Path
        A plan file.
    out_folder : str or Path
        Where a plan goes that has no file yet.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    editor = Editor.opened(plan_file)
    return Kept(OptionsBench(editor), editor, Path(out_folder))


class OptionsBench(Live):
    """A form round one editor; a field left empty takes the option away.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    _esm = module("element", "options_form")["_esm"]
    _css = module("element", "options_form")["_css"]

    def __init__(self, editor: Editor) -> None:
        super().__init__()
        self.editor, self._heard = editor, False
        self.faults: dict[str, str] = {}
        self._typed: dict[str, str] = {}
        editor.watch(self._show)

    def __repr__(self) -> str:
        return f"A form of {len(options_of(self.editor.plan))} options; it needs a live notebook."

    def _do_ready(self, _: dict[str, Any]) -> None:
        self._heard = True
        self._show()

    def _do_put(self, content: dict[str, Any]) -> None:
        """Put what was typed into the plan, or say why not; what was typed stays."""
        if content.get("name") in _BY_NAME:
            self._put(content["name"], str(content.get("text", "")))
            self._show()

    def _put(self, name: str, text: str) -> None:
        option = _BY_NAME[name]
        self.faults.pop(name, None)
        self._typed.pop(name, None)
        try:
            self._change(option, value_of(option, text))
        except PlanError as error:
            self.faults[name] = "; ".join(_remedy(fault, option) for fault in error.faults)
            self._typed[name] = text
        if self.faults:
            self.editor.keep_draft(self, self._drop)
        else:
            self.editor.end_draft(self)

    def _drop(self) -> None:
        self.faults, self._typed = {}, {}
        self._show()

    def _change(self, option: Option, value: Any) -> None:
        if option.table:
            self.editor.change(option.table, **{option.key: value})
        else:
            data = {**to_data(self.editor.plan), option.key: value or ""}
            self.editor.replace_plan(plan_from_data(data, "this change"))

    def _show(self) -> None:
        if self._heard:
            self.send({"kind": "form", **self.told()})

    def told(self) -> dict[str, Any]:
        """Return the form as it stands: groups of fields with words, text, choices, faults."""
        plan = self.editor.plan
        shown = options_of(plan)
        groups = [
            {"words": words, "fields": [self._field(one) for one in shown if one.table == table]}
            for table, words in GROUPS.items()
        ]
        return {
            "groups": [group for group in groups if group["fields"]],
            "assumed": list(answer(plan).assumptions),
        }

    def _field(self, option: Option) -> dict[str, Any]:
        name = f"{option.table}.{option.key}"
        choices = self.editor.plan.names if option.choices == ("lots",) else option.choices
        return {
            "name": name,
            "words": option.words,
            "text": self._typed.get(name, text_of(self.editor.plan, option)),
            "choices": list(choices),
            "tall": option.kind in (LINES, PORTIONS),
            "fault": self.faults.get(name, ""),
        }


def _remedy(fault: Any, option: Option) -> str:
    """Return what would be right; where the fault lies elsewhere in the plan, also where."""
    here = fault.place.split()[-1].startswith(option.key) if fault.place else True
    return fault.remedy if here else f"{fault.place}: {fault.remedy}"
