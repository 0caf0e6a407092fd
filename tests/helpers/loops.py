"""Coroutines in tests: a browser in the same process keeps a loop running in its thread."""

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any


def run(work: Coroutine[Any, Any, Any]) -> Any:
    """Return what a coroutine comes to, in a loop and a thread of its own."""
    with ThreadPoolExecutor(1) as pool:
        return pool.submit(asyncio.run, work).result()
