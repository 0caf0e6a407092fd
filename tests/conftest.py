"""Hypothesis: the same examples on every machine, and no clock; many more of them when thorough.

Where several workers share the tests, one does a file whole: pictures and pages made for one test
serve the next. Tests in a JupyterLab, or in the app view, have one of these between them; they take
longest and go first. What fails in a browser is asked once more and listed as such at the end:
a browser shares its machine with other tests.
"""

import asyncio

import pytest
from hypothesis import HealthCheck, settings

_ALWAYS = {
    "deadline": None,
    "derandomize": True,
    "print_blob": False,
    "suppress_health_check": [HealthCheck.too_slow],
}
settings.register_profile("bench", max_examples=15, **_ALWAYS)
settings.register_profile("thorough", max_examples=30, **_ALWAYS)
settings.register_profile("mutants", max_examples=6, **_ALWAYS)
settings.load_profile("bench")

SERVERS = ("lab", "app")


@pytest.fixture(autouse=True)
def _no_loop_of_a_browser(request):
    """Hide the loop that a browser keeps running for its worker's life from whom it is not for."""
    running = asyncio._get_running_loop()
    if not request.node.get_closest_marker("browser"):
        asyncio._set_running_loop(None)
    yield
    asyncio._set_running_loop(running)


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items):
    for item in items:
        item.add_marker(pytest.mark.xdist_group(_server(item) or item.path.name))
        if item.get_closest_marker("browser"):
            item.add_marker(pytest.mark.flaky(reruns=1))
    items.sort(key=lambda item: _server(item) is None)


def _server(item) -> str | None:
    return next((name for name in SERVERS if name in getattr(item, "fixturenames", ())), None)
