"""A bare page: widgets in a real browser, their kernel in the test's own process.

No server, no notebook: the page posts what a widget sends, and what the kernel sends comes back
with the answer. Messages and buffers are what they are between JupyterLab and a kernel.
"""

import json
from base64 import b64decode, b64encode

from tests.helpers.browser import listen

ADDRESS = "http://localhost/bare"
PAGE = """<!doctype html><html lang="en"><meta charset="utf-8"><title>Bare</title>
<link rel="icon" href="data:,"><body data-jp-theme-light="true"><main></main></body></html>"""
MODELS = """() => {
  const packed = (buffer) => {
    const bytes = new Uint8Array(buffer.buffer ?? buffer);
    let text = "";
    for (let at = 0; at < bytes.length; at += 32768)
      text += String.fromCharCode(...bytes.subarray(at, at + 32768));
    return btoa(text);
  };
  const bytesOf = (text) => Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const unpacked = (text) => new DataView(bytesOf(text).buffer);
  const hears = [];
  let line = Promise.resolve();
  window.heard = (told) => {
    for (const [number, content, buffers] of told)
      for (const hear of hears[number]) hear(content, buffers.map(unpacked));
  };
  const ask = async (body) => {
    const answer = await fetch("/kernel", { method: "POST", body });
    window.heard(await answer.json());
  };
  const dressed = (sheet) => {
    const style = Object.assign(document.createElement("style"), { textContent: sheet });
    document.head.append(style);
  };
  const signal = () => {
    const hearers = new Set();
    return {
      connect: (hear) => hearers.add(hear),
      disconnect: (hear) => hearers.delete(hear),
      emit: (told) => hearers.forEach((hear) => hear(null, told)),
    };
  };
  window.connection = { statusChanged: signal(), connectionStatusChanged: signal() };
  window.mount = async (number, code, sheet) => {
    const source = URL.createObjectURL(new Blob([code], { type: "text/javascript" }));
    const { default: widget } = await import(source);
    const host = document.createElement("section");
    document.querySelector("main").append(host);
    if (!number) dressed(sheet);
    hears[number] = new Set();
    const model = {
      widget_manager: { kernel: window.connection },
      send: (content, _, buffers = []) => {
        const body = JSON.stringify([number, content, buffers.map(packed)]);
        line = line.then(() => ask(body));
      },
      on: (_, hear) => hears[number].add(hear),
      off: (_, hear) => hears[number].delete(hear),
    };
    widget.render({ model, el: host });
  };
}"""


class Kernel:
    """Widgets of this process, and what they have said and nobody heard yet.

    Parameters
    ----------
    page : Page
        The page they are on.
    widgets : sequence of MessageWidget
        In the order in which they stand on the page.
    """

    def __init__(self, page, widgets):
        self.page, self.widgets, self.said = page, widgets, []
        for number, widget in enumerate(widgets):
            widget.send = self._sender(number)

    def _sender(self, number):
        def send(content, buffers=None, **_):
            told = [b64encode(buffer).decode() for buffer in buffers or []]
            self.said.append([number, json.loads(json.dumps(content)), told])

        return send

    def hear(self, route):
        """Do what the page asks, and answer with all that was said."""
        number, content, buffers = route.request.post_data_json
        self.widgets[number].handle(content, [b64decode(buffer) for buffer in buffers])
        said, self.said = self.said, []
        route.fulfill(json=said)

    def tell(self):
        """Let the page hear what was said without being asked."""
        said, self.said = self.said, []
        self.page.evaluate("told => window.heard(told)", said)


def show(context, *widgets):
    """Return a page of a browser's context with widgets on it; `page.kernel` is theirs."""
    page = context.new_page()
    listen(page)
    page.kernel = Kernel(page, widgets)
    page.route(ADDRESS, lambda route: route.fulfill(body=PAGE, content_type="text/html"))
    page.route("**/kernel", page.kernel.hear)
    page.goto(ADDRESS)
    page.evaluate(MODELS)
    for number, widget in enumerate(widgets):
        page.evaluate("given => window.mount(...given)", [number, widget._esm, widget._css])
    return page
