"""A picture of every page, for the eye: kept in `screenshots`. No page has an error in it."""

import pytest

from tests.helpers.paths import ROOT

pytestmark = [pytest.mark.browser, pytest.mark.thorough]

NOTEBOOKS = sorted(path.name for path in (ROOT / "notebooks").glob("*.ipynb"))
FOLDER = ROOT / "screenshots"
TO_TOP = "document.querySelector('.jp-WindowedPanel-outer').scrollTop = 0"
LAST = """Math.max(...[...document.querySelectorAll('.jp-Notebook-cell')]
  .map(each => each.getBoundingClientRect().bottom))"""
RAN = """() => {
  const state = document.querySelector('.jp-Notebook-ExecutionIndicator');
  const cells = window.jupyterapp.shell.currentWidget.content.widgets;
  const ran = cells.every(({ model }) => model.type !== 'code' || model.executionCount > 0);
  return state?.dataset.status === 'idle' && ran;
}"""
"""Asked of the notebook, not of the page: a cell that is out of sight may show no number."""


@pytest.mark.parametrize("name", NOTEBOOKS)
def test_every_page_runs_without_an_error_and_is_kept_as_a_picture(opened, name):
    page = opened(name)
    page.set_viewport_size({"width": 1400, "height": 6000})
    page.wait_for_function(RAN, timeout=90_000)
    page.wait_for_timeout(2500)
    page.evaluate(TO_TOP)
    page.wait_for_timeout(1000)
    FOLDER.mkdir(exist_ok=True)
    shown = {"x": 0, "y": 0, "width": 1400, "height": min(page.evaluate(LAST) + 40, 6000)}
    page.screenshot(path=FOLDER / name.replace(".ipynb", ".png"), clip=shown)
    assert page.locator("[data-mime-type='application/vnd.jupyter.stderr']").count() == 0
    assert page.locator("text=Traceback").count() == 0
    assert page.problems == []
