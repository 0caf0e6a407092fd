"""What browser tests share: how pages are waited for, and notebooks written for them."""

import socket
from pathlib import Path

import nbformat

from tests.helpers.paths import ROOT

DARK = """() => {
  document.body.dataset.jpThemeLight = "false";
  const dark = { "--jp-ui-font-color1": "rgba(255,255,255,0.87)", "--jp-ui-font-color2":
    "rgba(255,255,255,0.7)", "--jp-layout-color1": "#111", "--jp-layout-color2": "#303030",
    "--jp-border-color1": "#888" };
  for (const [name, value] of Object.entries(dark))
    document.documentElement.style.setProperty(name, value);
}"""
LIGHT = """() => {
  document.documentElement.removeAttribute("style");
  document.body.dataset.jpThemeLight = "true";
}"""
ORDER = "document.querySelector('.yc.order').order"
AT_REST = f"{ORDER}.moves.isAtRest"


def notebook(subject: str) -> str:
    """Return the file of the notebook on a subject, whatever its number."""
    (path,) = (ROOT / "notebooks").glob(f"[0-9]*_{subject}.ipynb")
    return path.name


def free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return free.getsockname()[1]


def ready(page):
    """Wait until an order is there, and what is told of it."""
    page.wait_for_selector(".yc .chips li", timeout=60_000)
    page.wait_for_selector(".yc table")
    return page


def go_to(page, section):
    page.get_by_role("button", name=section, exact=True).click()


def middle(box) -> tuple[float, float]:
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def still(page) -> None:
    """Wait until the page has kept its height for three tenths of a second from now."""
    page.evaluate("window.high = undefined")
    page.wait_for_function(
        """() => {
          const high = document.body.scrollHeight, now = performance.now();
          if (window.high !== high) [window.high, window.since] = [high, now];
          return now - window.since > 300;
        }""",
        polling=50,
    )


LABS_OWN = "_ensureFocus"
"""Where JupyterLab looks for a part of a cell that it has just put out of sight, now and then."""


def listen(page) -> None:
    """Keep what goes wrong on a page, and what it asks for."""
    page.problems, page.asked = [], []
    page.on("pageerror", lambda error: LABS_OWN in str(error) or page.problems.append(str(error)))
    page.on("console", lambda told: told.type == "error" and page.problems.append(told.text))
    page.on("request", lambda request: page.asked.append(request.url))


def write_notebook(folder: Path, name: str, *cells: str) -> None:
    """Write a notebook of code cells into the laboratory's folder."""
    code = [nbformat.v4.new_code_cell(cell) for cell in cells]
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    nbformat.write(nbformat.v4.new_notebook(cells=code, metadata=kernel), folder / name)
