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
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
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


def _wait_for(address: str) -> None:
    for _ in range(240):
        try:
            urllib.request.urlopen(f"{address}/api", timeout=1)  # noqa: S310
        except OSError:
            time.sleep(0.25)
        else:
            return
    pytest.fail("JupyterLab did not start")


@pytest.fixture
def opened(chromium, lab):
    """Return a function that opens a notebook in JupyterLab and runs all its cells."""
    pages = []

    def open_notebook(name: str):
        address, _ = lab
        context = chromium.new_context(viewport={"width": 1440, "height": 1400})
        page = context.new_page()
        pages.append(context)
        page.problems = []
        page.on("pageerror", lambda error: page.problems.append(str(error)))
        page.asked = []
        page.on("request", lambda request: page.asked.append(request.url))
        space = re.sub(r"\W", "", name) + str(len(pages))
        page.goto(f"{address}/lab/workspaces/{space}/tree/notebooks/{name}?reset")
        page.wait_for_selector(".jp-Notebook-cell", timeout=60_000)
        page.wait_for_timeout(2500)  # it shows idle before it has begun to connect
        page.wait_for_selector(".jp-Notebook-ExecutionIndicator[data-status=idle]")
        page.click(".lm-MenuBar-itemLabel:text-is('Run')")
        page.click(".lm-Menu-itemLabel:text-is('Run All Cells')")
        return page

    yield open_notebook
    for context in pages:
        context.close()


def write_notebook(folder: Path, name: str, *cells: str) -> None:
    """Write a notebook of code cells into the laboratory's folder."""
    code = [nbformat.v4.new_code_cell(cell) for cell in cells]
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    nbformat.write(nbformat.v4.new_notebook(cells=code, metadata=kernel), folder / name)
