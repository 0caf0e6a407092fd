"""The door of the app page: its key and its own host name open it, and nothing else does."""

import asyncio
import http.client
import json
import shutil
import socket
import struct
import time
from contextlib import closing, contextmanager, suppress
from types import SimpleNamespace
from urllib.parse import urlsplit

import psutil
import pytest
from jupyter_server.services.kernels.connection.base import serialize_msg_to_ws_v1
from tornado.web import HTTPError

from tests.helpers.page_server import KEY, served
from tests.helpers.paths import SAMPLE_DATA
from yarncolor.widgets import bench_server
from yarncolor.widgets.bench_server import BenchServer, BoundedKernels, refuse_all_but_pages

WITH_KEY = f"/?token={KEY}"
ELSEWHERE = "fleece.example"


class Door:
    """A bench that is served, how it answers, and how many programs work for its pages."""

    def __init__(self, address):
        self.host = urlsplit(address).netloc
        port = f"--port={urlsplit(address).port}"
        running = psutil.process_iter(["cmdline"])
        self.program = next(each.pid for each in running if port in (each.info["cmdline"] or ()))

    def asked(self, path, **headers):
        """Return status and headers of an answer; its page is read to the end."""
        connection = http.client.HTTPConnection(self.host, timeout=30)
        connection.request("GET", path, headers={"Host": self.host} | headers)
        answer = connection.getresponse()
        told = (answer.status, dict(answer.headers))
        if answer.status != 101:
            answer.read()
        connection.close()
        return told

    @property
    def kernels(self):
        running = psutil.process_iter(["ppid", "cmdline"])
        started = [each.info for each in running if each.info["ppid"] == self.program]
        return sum("ipykernel_launcher" in (each["cmdline"] or ()) for each in started)


@pytest.fixture(scope="module")
def door(tmp_path_factory):
    plan = tmp_path_factory.mktemp("door") / "plan.toml"
    shutil.copy(SAMPLE_DATA / "slack_water.toml", plan)
    with served(plan) as address:
        yield Door(address)


@pytest.mark.parametrize(
    ("path", "headers", "status"),
    [
        ("/", {}, 302),
        ("/?token=another", {}, 302),
        ("/?voila-template=lab", {"Sec-Fetch-Dest": "image"}, 302),
        (WITH_KEY, {"Host": ELSEWHERE}, 403),
        (WITH_KEY, {"Host": f"{ELSEWHERE}:8866"}, 403),
        (WITH_KEY, {"Host": "localhost.fleece.example"}, 403),
        (WITH_KEY, {"Sec-Fetch-Dest": "image"}, 403),
        (WITH_KEY, {"Sec-Fetch-Dest": "iframe"}, 403),
    ],
)
def test_whoever_has_no_key_or_comes_under_another_name_starts_nothing(door, path, headers, status):
    before = door.kernels
    answered, told = door.asked(path, **headers)
    assert answered == status
    assert door.kernels == before
    if status == 302:
        assert told["Location"].startswith("/login")


def test_the_locked_door_says_what_opens_it(door):
    connection = http.client.HTTPConnection(door.host, timeout=30)
    connection.request("GET", "/login")
    told = connection.getresponse().read().decode()
    assert "This bench is locked" in told
    assert KEY not in told


SOCKET = {
    "Connection": "Upgrade",
    "Upgrade": "websocket",
    "Sec-WebSocket-Key": "AAAAAAAAAAAAAAAAAAAAAA==",
    "Sec-WebSocket-Version": "13",
}


def opened_page(door):
    """Return the cookie that a page is given, and its kernel's name."""
    with closing(http.client.HTTPConnection(door.host, timeout=30)) as connection:
        connection.request("GET", WITH_KEY, headers={"Sec-Fetch-Dest": "document"})
        answer = connection.getresponse()
        page = answer.read().decode()
    assert answer.status == 200
    return answer.headers["Set-Cookie"], page.split('"kernelId": "')[1].split('"')[0]


def test_the_key_opens_the_page_and_its_kernel_is_heard_by_that_page_alone(door):
    before = door.kernels
    cookie, kernel = opened_page(door)
    assert door.kernels == before + 1
    assert "SameSite=Strict" in cookie
    assert "HttpOnly" in cookie
    channels = f"/api/kernels/{kernel}/channels"
    own = SOCKET | {"Cookie": cookie.split(";")[0]}
    here = {"Origin": f"http://{door.host}"}
    assert door.asked(channels, **own, **here)[0] == 101
    assert door.asked(channels, **SOCKET, **here)[0] == 403
    assert door.asked(channels, **own, Origin=f"http://{ELSEWHERE}")[0] == 403
    foreign = {"Origin": f"http://{ELSEWHERE}", "Host": ELSEWHERE}
    assert door.asked(channels, **own, **foreign)[0] == 403
    assert door.asked(f"/api/kernels/{kernel}")[0] in (302, 403)


ASKED = {"msg_id": "1", "msg_type": "kernel_info_request", "session": "one"}


def test_what_a_page_said_last_before_it_connected_anew_holds_up_nobody(door):
    """Of the older of two connections of one page, as after a laptop's sleep."""
    page = opened_page(door)
    message = {"header": ASKED, "parent_header": {}, "metadata": {}, "content": {}}
    payload = serialize_msg_to_ws_v1(message, "shell", lambda part: json.dumps(part).encode())
    with connected(door, page) as before, connected(door, page):
        before.sendall(frame(0x82, payload) + frame(0x88, b""))
        while before.recv(4096):  # until all that was said is read
            pass
    assert psutil.Process(door.program).memory_info().rss < 400e6


@pytest.mark.thorough
def test_a_page_stays_connected_however_quiet_it_is(door):
    """Jupyter's server asks for a sign every 30 s, and has closed by then who gave none since."""
    with connected(door, opened_page(door)) as page:
        ends = time.monotonic() + 40
        while time.monotonic() < ends:
            page.settimeout(ends - time.monotonic())
            with suppress(TimeoutError):
                assert page.recv(4096)


@contextmanager
def connected(door, page):
    """Connect a page, given by its cookie and its kernel, to that kernel."""
    cookie, kernel = page
    told = SOCKET | {
        "Host": door.host,
        "Origin": f"http://{door.host}",
        "Cookie": cookie.split(";")[0],
        "Sec-WebSocket-Protocol": "v1.kernel.websocket.jupyter.org",
    }
    asked = f"GET /api/kernels/{kernel}/channels?session_id=one HTTP/1.1"
    shake = "\r\n".join([asked, *(f"{name}: {said}" for name, said in told.items()), "", ""])
    host, _, port = door.host.partition(":")
    with socket.create_connection((host, int(port)), timeout=30) as own:
        own.sendall(shake.encode())
        assert b"101" in own.recv(4096)
        yield own


def frame(kind: int, payload: bytes) -> bytes:
    """Return a frame of RFC 6455, masked with zeros."""
    size = struct.pack("!H", len(payload)) if payload else b""
    return bytes([kind, 0x80 | (126 if payload else 0)]) + size + bytes(4) + payload


def test_no_file_of_the_machine_is_handed_out(door):
    for name in ("bench.ipynb", "voila.json", "../bench_server.py", "voila/templates/x.png"):
        assert door.asked(f"/voila/files/{name}?token={KEY}")[0] in (403, 404)


def test_a_program_that_is_no_browser_is_let_in_with_its_key():
    refuse_all_but_pages(SimpleNamespace(request=SimpleNamespace(headers={})))


def test_pages_beyond_the_most_are_refused_until_one_is_left(monkeypatch):
    monkeypatch.setattr(bench_server, "MOST_PAGES", 1)

    async def opened():
        kernels = BoundedKernels()
        try:
            first = await kernels.start_kernel()
            with pytest.raises(HTTPError, match="1 pages of the bench are open") as refused:
                await kernels.start_kernel()
            kernels.get_kernel(first).last_activity -= bench_server._LEFT_ALONE
            kernels._kernel_connections[first] = 1
            with pytest.raises(HTTPError):
                await kernels.start_kernel()
            kernels._kernel_connections[first] = 0
            second = await kernels.start_kernel()
            return refused.value.status_code, kernels.list_kernel_ids() == [second]
        finally:
            await kernels.shutdown_all(now=True)

    assert asyncio.run(opened()) == (503, True)


def test_a_browser_is_led_there_by_a_file_that_nobody_else_can_read(monkeypatch, tmp_path):
    opened = []
    monkeypatch.setattr(bench_server, "jupyter_runtime_dir", lambda: str(tmp_path / "run"))
    monkeypatch.setattr(bench_server.webbrowser, "open", opened.append)
    server = BenchServer(print, True, port=8123)
    server.identity_provider = SimpleNamespace(token="k")  # noqa: S106
    server.open_in_browser()
    (file,) = (tmp_path / "run").iterdir()
    assert file.stat().st_mode & 0o077 == 0
    assert "http://localhost:8123/?token=k" in file.read_text(encoding="utf-8")
    assert opened == [file.as_uri()]
