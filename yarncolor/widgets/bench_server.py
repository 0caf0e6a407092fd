"""The server of the bench as a page: for one plan, for one person, and for nobody else.

A key that is new at every start, told in the address, opens the page; without it nothing is shown
and nothing reckons. So other sites in the same browser and other accounts of the machine find a
closed door, and so does a name from elsewhere that is made to lead to this machine.
"""

import os
import webbrowser
from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from jinja2 import ChoiceLoader, FileSystemLoader
from jupyter_core.paths import jupyter_runtime_dir, secure_write
from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection
from jupyter_server.services.kernels.kernelmanager import AsyncMappingKernelManager
from markupsafe import escape
from tornado.ioloop import IOLoop
from tornado.web import HTTPError, RequestHandler
from traitlets.config import Config
from voila.app import Voila

_PAGE = Path(__file__).parent / "page"
MOST_PAGES = 24
"""Pages that may be open at once; each has a program of its own that reckons for it."""
_LEFT_ALONE = timedelta(minutes=1)
"""How long a page is given to connect, or to connect anew, before another may take its place."""
_OURS = {
    "allow_remote_access": False,  # under another host name than these
    "local_hostnames": ["localhost"],
    "ws_ping_interval": 0,  # pages ask every 5 s themselves; a ping's timeout cut all at 30 s
}


def launch(notebook: Path, port: int, say: Callable[[str], None], opens: bool) -> None:
    """Show a notebook as a page, until Ctrl-C ends it.

    Parameters
    ----------
    notebook : Path
        What is on the page.
    port : int
        Where it is served.
    say : callable
        Called once with where that is.
    opens : bool
        Whether a browser is opened on it.
    """
    told = Config()
    told.VoilaConfiguration.multi_kernel_manager_class = BoundedKernels
    told.VoilaConfiguration.prelaunch_hook = refuse_all_but_pages
    told.BenchServer.kernel_websocket_connection_class = PageConnection
    more = {"config": told, "auto_token": True, "port": port, "port_retries": 0}
    BenchServer.launch_instance([str(notebook)], say=say, opens=opens, **more)


class BenchServer(Voila):
    """Voila behind a key, heard under this machine's own name alone.

    Parameters
    ----------
    say : callable
        Called once with where the page is.
    opens : bool
        Whether a browser is opened on it.
    traits : dict
        As Voila has them.
    """

    def __init__(self, say: Callable[[str], None], opens: bool, **traits: Any) -> None:
        super().__init__(open_browser=False, **traits)
        self.say, self.opens = say, opens
        self._way_in = Path(jupyter_runtime_dir()) / f"yarncolor-{os.getpid()}.html"

    def init_settings(self):
        """Return what Voila sets, but for other hosts; who comes without a key is told in words."""
        settings = super().init_settings()
        own_pages = FileSystemLoader(_PAGE / "voila" / "templates" / "yarncolor")
        pages = settings["jinja2_env"]
        pages.loader = ChoiceLoader([own_pages, pages.loader])
        return settings | _OURS

    @property
    def address(self) -> str:
        """Where the page is, with its key."""
        return f"{self.connection_url}?token={self.identity_provider.token}"

    def start(self):
        """Serve the page; as soon as it can be reached, say where."""
        IOLoop.current().add_callback(self.say_where)
        super().start()

    def say_where(self) -> None:
        """Say the address, and open it where a browser is wanted."""
        self.say(
            f"The bench is at {self.address} until you stop it here with Ctrl-C. "
            "This address opens it and nothing else does: keep it to yourself."
        )
        if self.opens:
            self.open_in_browser()

    def open_in_browser(self) -> None:
        """Have a browser go there by a file that is read here alone: commands are seen by all."""
        with suppress(OSError, webbrowser.Error):
            self._way_in.parent.mkdir(parents=True, exist_ok=True)
            with secure_write(str(self._way_in)) as file:
                file.write(f'<meta http-equiv="refresh" content="0;url={escape(self.address)}">')
            webbrowser.open(self._way_in.as_uri())

    def stop(self):
        """End every page, and take away what led there."""
        self._way_in.unlink(missing_ok=True)
        super().stop()


class BoundedKernels(AsyncMappingKernelManager):
    """Kernels of pages, no more than are allowed: one that no page has makes room for a new one."""

    _on_their_way = 0

    async def start_kernel(self, **options: Any) -> str:  # type: ignore[override]
        """Start a kernel for a page; an `HTTPError` that says so where there are too many."""
        if len(self) + self._on_their_way >= MOST_PAGES:
            await self._make_room()
        self._on_their_way += 1
        try:
            return await super().start_kernel(**options)
        finally:
            self._on_their_way -= 1

    async def _make_room(self) -> None:
        before = datetime.now(UTC) - _LEFT_ALONE
        kernels: dict[str, Any] = {each: self.get_kernel(each) for each in self.list_kernel_ids()}
        left = {
            kernel.last_activity: each
            for each, kernel in kernels.items()
            if not self._kernel_connections.get(each) and kernel.last_activity < before
        }
        if not left:
            raise HTTPError(503, f"{MOST_PAGES} pages of the bench are open")
        await self.shutdown_kernel(left[min(left)])


class PageConnection(ZMQChannelsWebsocketConnection):
    """What a page and its kernel say to each other, read to its end as was agreed.

    Where a page connects anew, what it said last by its connection before is still on its way. By
    then Jupyter's server has forgotten how that is written, and takes a few hundred bytes for a
    list of a hundred million places: all pages stand still for a minute, and gigabytes are gone.
    """

    subprotocol = None
    """How messages are written: as was agreed when the page connected."""

    def connect(self) -> Any:
        """Begin."""
        self.subprotocol = super().subprotocol
        return super().connect()


def refuse_all_but_pages(handler: RequestHandler, **more: Any) -> None:  # noqa: ARG001
    """Raise an `HTTPError` where a browser asks for the bench as a picture, a script or a frame.

    Parameters
    ----------
    handler : RequestHandler
        Of whoever asks; those that are no browser say nothing of what they want it for.
    more : dict
        What Voila tells besides.
    """
    if handler.request.headers.get("Sec-Fetch-Dest", "document") != "document":
        raise HTTPError(403, "the bench is a page of its own")
