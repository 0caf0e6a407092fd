"""The app page as `yarncolor bench` serves it, for a test's own plan."""

import os
import subprocess
import sys
import time
import urllib.request
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.helpers.browser import free_port
from tests.helpers.paths import ROOT

PAGE = ROOT / "yarncolor" / "widgets" / "page"
KEY = "the-key-of-the-tests"


@contextmanager
def served(plan: Path):
    """Serve the bench on a plan file, and give its address, which opens it.

    Parameters
    ----------
    plan : Path
        Beside it stands what the server wants to keep.
    """
    port = free_port()
    command = [sys.executable, "-m", "yarncolor", "bench", str(plan), "--no-browser"]
    with _running([*command, f"--port={port}", f"--out={plan.parent / 'out'}"], plan.parent):
        wait_for(f"http://127.0.0.1:{port}", "voila/static/favicon.ico")
        yield f"http://127.0.0.1:{port}/?token={KEY}"


@contextmanager
def served_without_a_plan(folder: Path):
    """Serve the bench in a folder, no plan named, and give its address, which opens it.

    Parameters
    ----------
    folder : Path
        Where it is started: plans are looked for there, and kept.
    """
    port = free_port()
    command = [sys.executable, "-m", "yarncolor", "bench", "--no-browser", f"--port={port}"]
    with _running(command, folder):
        wait_for(f"http://127.0.0.1:{port}", "voila/static/favicon.ico")
        yield f"http://127.0.0.1:{port}/?token={KEY}"


@contextmanager
def served_alone(notebook: Path):
    """Serve a notebook of any kind as a page, without a key, and give its address.

    Parameters
    ----------
    notebook : Path
        What is on the page; beside it stands what the server wants to keep.
    """
    port = free_port()
    command = [sys.executable, "-m", "voila", str(notebook), "--no-browser", f"--port={port}"]
    with _running(command, notebook.parent):
        wait_for(f"http://127.0.0.1:{port}", "voila/static/favicon.ico")
        yield f"http://127.0.0.1:{port}"


@contextmanager
def _running(command: list[str], folder: Path):
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    server = subprocess.Popen(command, cwd=folder, env=_environment(folder), **quiet)
    try:
        yield
    finally:
        server.terminate()
        server.wait()


def _environment(folder: Path) -> dict[str, str]:
    """Return what a server is told; compiled modules are kept, as at home."""
    own = {
        "JUPYTER_TOKEN": KEY,
        "JUPYTER_CONFIG_DIR": str(folder / ".jupyter"),
        "IPYTHONDIR": str(folder / ".jupyter"),
    }
    at_home = {key: word for key, word in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return at_home | own


def part_of(address: str, path: str) -> str:
    """Return the address of a part of a server, with its key.

    Parameters
    ----------
    address : str
        Of its page.
    path : str
        Of the part.
    """
    return address.replace("/?", f"/{path}?")


def wait_for(address: str, page: str = "api") -> None:
    """Wait until a server answers for one of its pages."""
    for _ in range(240):
        try:
            urllib.request.urlopen(f"{address}/{page}", timeout=1)  # noqa: S310
        except OSError:
            time.sleep(0.25)
        else:
            return
    pytest.fail("the server did not start")
