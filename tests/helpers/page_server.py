"""The app page as `make app` serves it, for a test's own plan."""

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
BENCH = PAGE / "bench.ipynb"


@contextmanager
def served(plan: Path, notebook: Path = BENCH):
    """Serve a page on a plan file, and give its address.

    Parameters
    ----------
    plan : Path
        Beside it stands what the server wants to keep.
    notebook : Path
        What is on the page.
    """
    port = free_port()
    command = [sys.executable, "-m", "voila", str(notebook), "--no-browser", f"--port={port}"]
    server = subprocess.Popen(
        command,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env=_environment(plan),
    )
    try:
        wait_for(f"http://127.0.0.1:{port}", "voila/static/favicon.ico")
        yield f"http://127.0.0.1:{port}"
    finally:
        server.terminate()
        server.wait()


def _environment(plan: Path) -> dict[str, str]:
    """Return what `make app` tells a server; compiled modules are kept, as at home."""
    own = {
        "JUPYTER_PATH": str(PAGE),
        "JUPYTER_CONFIG_PATH": str(PAGE),
        "JUPYTER_CONFIG_DIR": str(plan.parent / ".jupyter"),
        "IPYTHONDIR": str(plan.parent / ".jupyter"),
        "YARNCOLOR_PLAN": str(plan),
        "YARNCOLOR_OUT": str(plan.parent / "out"),
    }
    at_home = {key: word for key, word in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return at_home | own


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
