"""A real browser and a real JupyterLab; both are skipped, and say so, where there is no browser."""

import os
import shutil
import subprocess
import sys
from contextlib import ExitStack

import nbformat
import pytest

from tests.helpers.bare_page import show
from tests.helpers.browser import AT_REST, LIGHT, free_port, go_to, listen, ready
from tests.helpers.chromium import browser_path, launched
from tests.helpers.page_server import served, wait_for
from tests.helpers.paths import ROOT
from tests.helpers.phone import SMALL, Phone
from yarncolor.planfile.unsaved import unsaved_of

_SIZE = {"width": 1440, "height": 1000}


@pytest.fixture(scope="session")
def chromium_path() -> str:
    return browser_path()


@pytest.fixture(scope="session")
def chromium(chromium_path):
    with launched() as browser:
        yield browser


@pytest.fixture(scope="session")
def lab(chromium_path, tmp_path_factory):
    """Return the address of a JupyterLab whose folder holds notebooks and sample plans."""
    folder = tmp_path_factory.mktemp("lab")
    for name in ("notebooks", "sample_data"):
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("out", ".*"))
    port = free_port()
    command = [sys.executable, "-m", "jupyter", "lab", "--no-browser", "--allow-root"]
    options = [
        f"--port={port}",
        "--IdentityProvider.token=",
        f"--ServerApp.root_dir={folder}",
        "--LabApp.news_url=None",
        "--LabApp.expose_app_in_browser=True",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    ]
    home = {name: str(folder / ".jupyter") for name in ("JUPYTER_CONFIG_DIR", "IPYTHONDIR")}
    server = subprocess.Popen(
        [*command, *options],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env=os.environ | home,
    )
    address = f"http://127.0.0.1:{port}"
    wait_for(address)
    yield address, folder
    server.terminate()
    server.wait()


@pytest.fixture(scope="session")
def app(chromium_path, tmp_path_factory):
    """Return a function that starts the app view on a plan file, and its folder."""
    with ExitStack() as servers:
        yield lambda plan: servers.enter_context(served(plan))


@pytest.fixture(scope="session")
def app_plan(tmp_path_factory):
    plan = tmp_path_factory.mktemp("app") / "plan.toml"
    shutil.copy(ROOT / "sample_data" / "slack_water.toml", plan)
    return plan


@pytest.fixture(scope="session")
def app_address(app, app_plan):
    """Return the address of the bench on a plan that whoever saves it puts back."""
    return app(app_plan)


@pytest.fixture
def plan(app_plan):
    """Return the plan of the page, put back after a test that saved it; nothing lies beside it."""
    for unsaved in unsaved_of(app_plan):
        unsaved.path.unlink()
    shutil.rmtree(app_plan.parent / "out", ignore_errors=True)
    before = app_plan.read_text(encoding="utf-8")
    yield app_plan
    app_plan.write_text(before, encoding="utf-8")


_APP_SIZE = {"width": 1300, "height": 900}


@pytest.fixture(scope="session")
def _app_page(chromium, app_address):
    page = chromium.new_page(viewport=_APP_SIZE)
    listen(page)
    page.goto(app_address)
    yield ready(page)
    page.close()


@pytest.fixture
def app_page(_app_page):
    """Return the bench as it was opened: every step that another test took is taken back."""
    _app_page.problems.clear()
    _app_page.set_viewport_size(_APP_SIZE)
    _app_page.evaluate(LIGHT)
    go_to(_app_page, "Colour order")
    ready(_app_page)
    undo = _app_page.get_by_role("button", name="Undo")
    _app_page.wait_for_timeout(300)  # what another test did last is on its way
    while undo.is_enabled():
        undo.evaluate("button => button.click()")
        _app_page.wait_for_timeout(150)
    _app_page.wait_for_function(AT_REST)
    return ready(_app_page)


@pytest.fixture
def visited(chromium):
    """Return a function that opens an address; problems and requests are kept on the page."""
    contexts = []

    def visit(address: str, width: int = 1300, height: int = 900, **options):
        context = chromium.new_context(viewport={"width": width, "height": height}, **options)
        contexts.append(context)
        page = context.new_page()
        listen(page)
        page.goto(address)
        return page

    yield visit
    for context in contexts:
        context.close()


@pytest.fixture
def bare(chromium):
    """Return a function that shows widgets on a bare page; their kernel is this process."""
    contexts = []

    def show_bare(*widgets, width: int = 1300, height: int = 900, **options):
        contexts.append(
            chromium.new_context(viewport={"width": width, "height": height}, **options)
        )
        return show(contexts[-1], *widgets)

    yield show_bare
    for context in contexts:
        context.close()


@pytest.fixture
def phone(chromium, tmp_path):
    """Return a function that gives a phone with the page of a plan on it."""
    contexts = []

    def with_page(data: dict, script: str = "", **options) -> Phone:
        flight = {"viewport": SMALL, "has_touch": True, "is_mobile": True, "offline": True}
        contexts.append(chromium.new_context(**flight | options))
        if script:
            contexts[-1].add_init_script(script)
        return Phone(contexts[-1], tmp_path / "wheel.html").load(data)

    yield with_page
    for context in contexts:
        context.close()


@pytest.fixture(scope="session")
def _lab_page(chromium, lab):
    """Return the one page of the laboratory, on which every notebook is opened in its turn."""
    page = chromium.new_page(viewport=_SIZE)
    listen(page)
    page.goto(f"{lab[0]}/lab?reset")
    page.wait_for_function("window.jupyterapp !== undefined", timeout=60_000)
    page.evaluate("window.jupyterapp.restored")
    page.shown = None
    yield page
    page.close()


@pytest.fixture
def opened(_lab_page, lab):
    """Return a function that opens a notebook in JupyterLab and runs all its cells.

    A notebook that is open already is run again from its top.
    """

    def open_notebook(name: str):
        page, shown = _lab_page, (name, _code(lab, name))
        page.set_viewport_size(_SIZE)
        if page.shown != shown or page.evaluate(TABS) != 1:
            page.evaluate(OPEN, f"notebooks/{name}")
            page.shown = shown
        page.problems.clear()  # of a kernel that was left in the middle of a question
        page.evaluate(RUN)
        return page

    return open_notebook


TABS = "[...window.jupyterapp.shell.widgets('main')].length"
OPEN = """async (path) => {
  const { shell, commands } = window.jupyterapp;
  for (const widget of [...shell.widgets('main')]) {
    if (widget.context) widget.context.model.dirty = false;
    widget.dispose();
  }
  const panel = await commands.execute('docmanager:open', { path, factory: 'Notebook' });
  await panel.context.ready;
  await panel.sessionContext.ready;
  await panel.revealed;
}"""
RUN = "window.jupyterapp.commands.execute('notebook:run-all-cells')"


def _code(lab, name: str) -> str:
    """Return a notebook's code: what it shows may have been saved meanwhile."""
    cells = nbformat.read(lab[1] / "notebooks" / name, as_version=4).cells
    return "\n".join(cell.source for cell in cells)
