"""What our own widgets share: module and sheet, messages, a sentence where no widget runs.

The browser side is a plain ES module beside the Python one. It asks for what it needs when it is
ready, so that a page that is drawn late, or twice, is served like the first.
"""

from pathlib import Path
from typing import Any

import anywidget

_HERE = Path(__file__).parent
_SHEET = (_HERE / "live.css").read_text(encoding="utf-8")


def module(*names: str) -> dict[str, str]:
    """Return what the class body of a widget needs: its ES module and the common sheet.

    Several files make one module: the last exports, those before it are what it stands on.
    """
    parts = [(_HERE / f"{name}.js").read_text(encoding="utf-8") for name in names]
    return {"_esm": "\n".join(parts), "_css": _SHEET}


class MessageWidget(anywidget.AnyWidget):
    """A widget of ours; subclasses give `_esm`, `_css` and tasks, `_do_` and a name."""

    def __init__(self, **traits: Any) -> None:
        super().__init__(**traits)
        self.on_msg(lambda _, content, buffers: self.answer_to(content, buffers))

    def __repr__(self) -> str:
        return "A bench; it needs a live notebook."

    def _repr_mimebundle_(self, **options: Any) -> Any:
        """Return anywidget's bundle with a sentence for where no widgets run."""
        bundle = super()._repr_mimebundle_(**options)
        data = bundle[0] if isinstance(bundle, tuple) else bundle
        data["text/plain"] = repr(self)
        return bundle

    def answer_to(self, content: dict[str, Any], buffers: list) -> None:
        """Do what the browser asks: what it names, where there is such a task."""
        task = getattr(self, f"_do_{content.get('do')}", None)
        if task is not None:
            task({**content, "buffers": buffers})
