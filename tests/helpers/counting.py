"""How often a function of the package is called, whoever imported it."""

import sys
from collections.abc import Callable


def counted(monkeypatch, function: Callable) -> list[tuple]:
    """Return a list that every call of a function adds its arguments to."""
    calls: list[tuple] = []

    def heard(*args, **options):
        calls.append(args)
        return function(*args, **options)

    for name, module in list(sys.modules.items()):
        if name.startswith("yarncolor") and getattr(module, function.__name__, None) is function:
            monkeypatch.setattr(module, function.__name__, heard)
    return calls
