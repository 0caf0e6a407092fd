"""The bench page on this machine: what it is told, and where it is served."""

import os
import socket
from collections.abc import Callable
from pathlib import Path

from yarncolor.errors import fail

PAGE = Path(__file__).parent / "page"
_PORT, _PORTS = 8866, 50
"""Where a free port is looked for first, and how many are tried."""


def serve_bench(
    plan: str | None,
    out: str | Path,
    say: Callable[[str], None],
    *,
    port: int | None = None,
    opens: bool = True,
) -> None:
    """Serve the bench as a page until a key stops it.

    Parameters
    ----------
    plan : str or None
        A plan file; None for a first screen that asks.
    out : str or Path
        Folder for what is written.
    say : callable
        Called once with where the page is, and that it is nobody else's.
    port : int, optional
        Where the page is served; where nothing is said the first that is free.
    opens : bool
        Whether a browser is opened on it.

    Raises
    ------
    PlanError
        With every fault of the plan file, before anything is started.
    """
    if plan is not None:
        from yarncolor.planfile.read import read_plan

        read_plan(plan)
    os.environ |= page_environment(plan, out, Path(plan).parent if plan else Path())
    at = _free_port(port)
    from yarncolor.widgets.bench_server import launch

    launch(PAGE / "bench.ipynb", at, say, opens)


def _free_port(asked: int | None) -> int:
    """Return the port asked for, or the first that is free; `PlanError` where there is none."""
    for port in range(_PORT, _PORT + _PORTS) if asked is None else [asked]:
        with socket.socket() as free:
            try:
                free.bind(("127.0.0.1", port))
            except (OSError, OverflowError):
                continue
            return int(free.getsockname()[1])
    return fail("--port", f"{asked or _PORT} cannot be had; choose another number, 1024 to 65535")


def page_environment(plan: str | None, out: str | Path, folder: Path) -> dict[str, str]:
    """Return what the page is told by its environment; the server's own part is `voila.json`.

    Parameters
    ----------
    plan : str or None
        A plan file; None where there is none yet.
    out : str or Path
        Folder for what is written.
    folder : Path
        Where plans are looked for, and kept that have no file yet.
    """
    return {
        "JUPYTER_PATH": _before(str(PAGE), "JUPYTER_PATH"),
        "JUPYTER_CONFIG_PATH": _before(str(PAGE), "JUPYTER_CONFIG_PATH"),
        "YARNCOLOR_PLAN": str(Path(plan).absolute()) if plan else "",
        "YARNCOLOR_OUT": str(Path(out).absolute()),
        "YARNCOLOR_FOLDER": str(folder.absolute()),
    }


def _before(own: str, name: str) -> str:
    return os.pathsep.join(filter(None, [own, os.environ.get(name, "")]))
