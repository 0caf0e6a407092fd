"""Timings are for the thorough run; after them, how many times longer each baseline takes."""

from collections import defaultdict

import pytest


def pytest_collection_modifyitems(items):
    for item in items:
        if "benchmark" in item.fixturenames:
            item.add_marker(pytest.mark.thorough)


@pytest.hookimpl(trylast=True)
def pytest_terminal_summary(terminalreporter, config):
    session = getattr(config, "_benchmarksession", None)
    groups = defaultdict(dict)
    for timed in session.benchmarks if session else ():
        if timed.has_error or timed.extra_info.get("against") is None:
            continue
        groups[timed.group][timed.extra_info["against"]] = timed.stats.median
    lines = [line for group, medians in groups.items() for line in _ratios(group, medians)]
    if lines:
        terminalreporter.section("ratios of medians, one run")
        terminalreporter.write_line("\n".join(lines))


def _ratios(group, medians):
    ours = medians.get("ours")
    if ours is None:
        return
    yield f"{group}: {_in_ms(ours)}"
    for name, median in medians.items():
        if name != "ours":
            yield f"    {name}: {_short(median / ours)} times as long ({_in_ms(median)})"


def _in_ms(seconds):
    return f"{_short(seconds * 1000)} ms"


def _short(number):
    return f"{number:,.0f}" if number >= 100 else f"{number:.3g}"
