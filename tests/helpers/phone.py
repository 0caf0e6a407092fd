"""The card on a phone: opened from its file as a phone does, touched, closed without warning."""

import re
import tomllib
from pathlib import Path

import yarncolor as yc
from tests.helpers.browser import listen
from yarncolor.report.phone.page import wheel_html

SMALL = {"width": 360, "height": 740}
COLOURS = ("#56612d", "#dcdad0", "#3b2f2a", "#c9b48a")

_PAINTED = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"


def plan_of(*names: str, plies: int = 2, title: str = "Shore", **tables: dict) -> dict:
    """Return a plan's data: lots of 12 g each, matched."""
    lots = [
        {"name": name, "mass_g": 12.0, "colour": COLOURS[at % len(COLOURS)]}
        for at, name in enumerate(names)
    ]
    return {"title": title, "lots": lots, "scheme": {"plies": plies}, **tables}


class Phone:
    """A phone in flight mode with the page of a plan on it.

    Parameters
    ----------
    context : BrowserContext
        Its browser, without a network.
    path : Path
        Where the file lies on it.
    """

    def __init__(self, context, path: Path):
        self.context, self.path, self.page = context, path, None

    def load(self, data: dict):
        """Put the file of a plan on the phone, in the place of what was there."""
        self.path.write_bytes(wheel_html(yc.answer(yc.plan_from_data(data))))
        return self.open()

    def open(self):
        self.page = self.context.new_page()
        listen(self.page)
        self.page.goto(self.path.as_uri())
        self.page.wait_for_selector("nav button")
        return self

    def kill(self):
        """Close the page with no warning at all."""
        self.page.close(run_before_unload=False)
        return self

    def again(self):
        return self.kill().open()

    def tap(self, name: str):
        self.page.get_by_role("button", name=name, exact=True).tap()
        return self

    def tap_text(self, text: str):
        self.page.get_by_text(text, exact=True).tap()
        return self

    def go(self, view: str):
        self.page.locator("nav").get_by_role("button", name=view, exact=True).tap()
        return self

    def tick(self, row: int):
        """Tick a row in the list of the bobbin that is shown, or take its tick back."""
        self.page.locator(f"[role=checkbox][aria-label^='Row {row},']").tap()
        return self

    def fill(self, label: str, text: str):
        self.page.get_by_label(label, exact=True).fill(text)
        return self

    @property
    def text(self) -> str:
        """What is shown; rows are laid out when a frame is painted, and have no text before."""
        self.page.evaluate(_PAINTED)
        return self.page.locator("body").inner_text()

    @property
    def ticked(self) -> list[int]:
        """The rows that are ticked on the bobbin that is shown in the list."""
        found = self.page.locator("[role=checkbox][aria-checked=true]").evaluate_all(
            "boxes => boxes.map(box => box.getAttribute('aria-label'))"
        )
        return [int(re.match(r"Row (\d+),", each)[1]) for each in found]

    @property
    def taken_home(self) -> str:
        self.go("Take home")
        return self.page.locator("textarea").input_value()

    @property
    def spun(self) -> list[dict]:
        """The tables of what was spun, without their dates."""
        tables = tomllib.loads(self.taken_home).get("spun", [])
        return [{key: table[key] for key in table if key != "on"} for table in tables]
