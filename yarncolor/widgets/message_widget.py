"""What our own widgets share: module and sheet, messages, a sentence where no widget runs.

The browser side is JavaScript beside the Python one. It asks for what it needs when it is ready,
so that a page that is drawn late, or twice, is served like the first.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Any, ClassVar

import anywidget

from yarncolor.scripts import joined
from yarncolor.widgets.mishaps import heard

_HERE = Path(__file__).parent


def module(entry: str) -> str:
    """Return the ES module of a widget from the file that exports it, as in ``plan_bar``."""
    return joined(_HERE / f"{entry}.js")


class MessageWidget(anywidget.AnyWidget):
    """A widget of ours; subclasses give `_esm`, `hears`, and for each of these an `on_` and it."""

    _css = "\n".join((_HERE / name).read_text("utf-8") for name in ("look.css", "live.css"))
    hears: ClassVar[Mapping[str, type]] = {}
    """What the browser may ask for, and how that looks."""

    def __init__(self, **traits: Any) -> None:
        super().__init__(**traits)
        hear = heard(self, self.handle)
        self.on_msg(lambda _, message, buffers: hear(message, buffers))

    def __repr__(self) -> str:
        return "A bench; it needs a live notebook."

    def _repr_mimebundle_(self, **options: Any) -> Any:
        """Return anywidget's bundle with a sentence for where no widgets run."""
        bundle = super()._repr_mimebundle_(**options)
        data: Any = bundle[0] if isinstance(bundle, tuple) else bundle
        data["text/plain"] = repr(self)
        return bundle

    def handle(self, message: dict[str, Any], buffers: list[bytes]) -> None:
        """Do what the browser asks for; nothing where that is not among what this widget hears.

        Parameters
        ----------
        message : dict[str, Any]
            ``do``, and what belongs to it; see `protocol`.
        buffers : list[bytes]
            A file that came with it.
        """
        if message.get("do") in self.hears:
            getattr(self, f"on_{message['do']}")({**message, "buffers": buffers})
