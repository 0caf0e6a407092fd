"""A real browser and a real JupyterLab; both are skipped, and say so, where there is no browser."""

import os
import re
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import nbformat
import pytest

ROOT = Path(__file__).parents[2]
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]


@pytest.fixture(scope="session")
def chromium_path() -> str:
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    if found is None:
        pytest.skip(f"no browser: install one of {', '.join(BROWSERS)} to run this test")
    return found


@pytest.fixture(scope="session")
def chromium(chromium_path):
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium_path, args=FLAGS)
        yield browser
        browser.close()


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
    _wait_for(address)
    yield address, folder
    server.terminate()
    server.wait()


def free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return free.getsockname()[1]


def _wait_for(address: str, page: str = "api") -> None:
    for _ in range(240):
        try:
            urllib.request.urlopen(f"{address}/{page}", timeout=1)  # noqa: S310
        except OSError:
            time.sleep(0.25)
        else:
            return
    pytest.fail("the server did not start")


@pytest.fixture(scope="session")
def app(chromium_path, tmp_path_factory):
    """Return a function that starts the app view on a plan file, and its folder."""
    servers = []

    def start(plan: Path, notebook: Path = ROOT / "yarncolor" / "page" / "bench.ipynb") -> str:
        port = free_port()
        own = {
            "JUPYTER_PATH": str(ROOT / "yarncolor" / "page"),
            "JUPYTER_CONFIG_DIR": str(plan.parent / ".jupyter"),
            "IPYTHONDIR": str(plan.parent / ".jupyter"),
            "YARNCOLOR_PLAN": str(plan),
            "YARNCOLOR_OUT": str(plan.parent / "out"),
        }
        command = [sys.executable, "-m", "voila", str(notebook), "--no-browser"]
        servers.append(
            subprocess.Popen(
                [*command, f"--port={port}", "--template=yarncolor"],
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                env=os.environ | own,
            )
        )
        _wait_for(f"http://127.0.0.1:{port}", "voila/static/favicon.ico")
        return f"http://127.0.0.1:{port}"

    yield start
    for server in servers:
        server.terminate()
        server.wait()


@pytest.fixture
def visited(chromium):
    """Return a function that opens an address; problems and requests are kept on the page."""
    contexts = []

    def visit(address: str, width: int = 1300, height: int = 900, **options):
        context = chromium.new_context(viewport={"width": width, "height": height}, **options)
        contexts.append(context)
        page = context.new_page()
        page.problems, page.asked = [], []
        page.on("pageerror", lambda error: page.problems.append(str(error)))
        page.on("console", lambda told: told.type == "error" and page.problems.append(told.text))
        page.on("request", lambda request: page.asked.append(request.url))
        page.goto(address)
        return page

    yield visit
    for context in contexts:
        context.close()


@pytest.fixture(scope="session")
def notebooks_seen(chromium):
    """Return pages that stay open from test to test, by the notebook that is on them."""
    pages = {}
    yield pages
    for page in pages.values():
        page.context.close()


@pytest.fixture
def opened(chromium, lab, notebooks_seen):
    """Return a function that opens a notebook in JupyterLab and runs all its cells.

    A notebook that another test has opened is run again from its top, on the page it is on.
    """

    def open_notebook(name: str):
        page = notebooks_seen.get(key := (name, _content(lab, name)))
        if page is None:
            page = notebooks_seen[key] = _fresh_page(chromium, lab, name)
        page.problems.clear()
        page.set_viewport_size(_SIZE)
        page.evaluate(MARK_OLD)
        page.click(".lm-MenuBar-itemLabel:text-is('Run')")
        page.click(".lm-Menu-itemLabel:text-is('Run All Cells')")
        page.wait_for_function(NO_OLD, timeout=60_000)
        return page

    return open_notebook


_SIZE = {"width": 1440, "height": 1400}
MARK_OLD = """() => document.querySelectorAll('.jp-Cell-outputWrapper .jp-OutputArea-child')
  .forEach(each => { each.dataset.old = true; })"""
NO_OLD = "document.querySelector('.jp-OutputArea-child[data-old]') === null"


def _content(lab, name: str) -> str:
    """Return a notebook's code: what it shows may have been saved meanwhile."""
    cells = nbformat.read(lab[1] / "notebooks" / name, as_version=4).cells
    return "\n".join(cell.source for cell in cells)


def _fresh_page(chromium, lab, name: str):
    address, _ = lab
    page = chromium.new_context(viewport=_SIZE).new_page()
    page.problems, page.asked = [], []
    page.on("pageerror", lambda error: page.problems.append(str(error)))
    page.on("request", lambda request: page.asked.append(request.url))
    space = re.sub(r"\W", "", name) + str(time.monotonic_ns())
    page.goto(f"{address}/lab/workspaces/{space}/tree/notebooks/{name}?reset")
    page.wait_for_selector(".jp-Notebook-cell", timeout=60_000)
    page.wait_for_timeout(2500)  # it shows idle before it has begun to connect
    page.wait_for_selector(".jp-Notebook-ExecutionIndicator[data-status=idle]")
    return page


def write_notebook(folder: Path, name: str, *cells: str) -> None:
    """Write a notebook of code cells into the laboratory's folder."""
    code = [nbformat.v4.new_code_cell(cell) for cell in cells]
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    nbformat.write(nbformat.v4.new_notebook(cells=code, metadata=kernel), folder / name)
