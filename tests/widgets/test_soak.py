"""A long evening in one page: ten thousand moves, edits, steps back and saves; and a full house.

Nothing is lost, nothing is thrown but what can be mended, and memory stays what it was.
"""

import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from urllib.request import Request, urlopen

import pytest

from tests.helpers.page_server import served
from tests.helpers.paths import ROOT, SAMPLE_DATA

pytestmark = pytest.mark.thorough

EVENING = """
import asyncio
import sys
from pathlib import Path
import numpy as np
import psutil
from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.planfile.read import read_plan
from yarncolor.widgets.message_widget import MessageWidget
from yarncolor.widgets.whole_bench import Bench

MessageWidget.send = lambda *_, **__: None
plan, tasks = Path(sys.argv[1]), int(sys.argv[2])
draw = np.random.default_rng(7)
process, seen, told = psutil.Process(), [], 0


def evening(editor, painter, bench):
    def moved():
        entry, place = map(int, draw.integers(0, len(editor.order), 2))
        turn = painter._turn
        painter.handle({"do": "move", "moves": [[entry, place]], "serial": 1, "turn": turn}, [])

    def edited():
        table, key, low, high = [
            ("spinning", "variation", 0.0, 0.2),
            ("spinning", "single_m_per_g", 6.0, 14.0),
            ("plying", "twist_tpi", 3.0, 7.0),
            ("bobbins", "capacity_g", 80.0, 200.0),
        ][int(draw.integers(4))]
        editor.change(table, **{key: round(float(draw.uniform(low, high)), 3)})

    def held():
        editor.hold(int(draw.integers(len(editor.order))), bool(draw.integers(2)))

    def saved():
        editor.save()
        assert read_plan(plan) == editor.plan

    def looked():
        names = ["Colour order", "Weigh-out", "Lots", "At the wheel"]
        bench.sections.value = str(draw.choice(names))

    does = [moved] * 945 + [edited] * 12 + [editor.undo] * 16 + [editor.redo] * 8 + [held] * 8
    return [*does, *[editor.reverse, editor.turn_round], *[saved] * 6, *[looked] * 3], saved


async def main():
    global told
    editor = Editor.opened(plan)
    bench = Bench(editor, plan.parent / "out")
    painter = bench.place.children[0].painter
    for part in (*bench.kept.children, painter):
        part.handle({"do": "ready", "view": "v"}, [])
    does, saved = evening(editor, painter, bench)
    for at in range(tasks):
        try:
            does[int(draw.integers(len(does)))]()
        except PlanError:
            told += 1
        await asyncio.sleep(0)
        if at % (tasks // 20) == 0:
            seen.append(process.memory_full_info().uss)
    saved()
    print(max(seen) // 2**20, (seen[-1] - seen[2]) // 2**20, told)


asyncio.run(main())
"""
"""Runs with a plan file and how many tasks; prints the most megabytes of its own, by how many they
grew after the first tenth, and how often it was said that something cannot be."""

TASKS, MOST_MB, MOST_GROWTH_MB, PAGES = 10_000, 300, 60, 20


def test_ten_thousand_tasks_lose_nothing_and_keep_their_memory(tmp_path):
    plan = tmp_path / "plan.toml"
    shutil.copy(SAMPLE_DATA / "slack_water.toml", plan)
    command = [sys.executable, "-c", EVENING, str(plan), str(TASKS)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-3000:]
    most_mb, grown_mb, told = map(int, done.stdout.split())
    assert most_mb < MOST_MB
    assert grown_mb < MOST_GROWTH_MB
    assert told < TASKS / 10
    assert not [path for path in tmp_path.rglob("*") if path.suffix == ".part"]


@pytest.fixture
def address(tmp_path):
    plan = tmp_path / "plan.toml"
    shutil.copy(SAMPLE_DATA / "slack_water.toml", plan)
    with served(plan) as there:
        yield there


def test_twenty_pages_are_served_at_once_each_with_a_kernel_of_its_own(address):
    def opened(_) -> tuple[int, str]:
        asked = Request(address, headers={"Sec-Fetch-Dest": "document"})  # noqa: S310
        with urlopen(asked, timeout=300) as answer:  # noqa: S310
            return answer.status, answer.read().decode().split('"kernelId": "')[1].split('"')[0]

    with ThreadPoolExecutor(PAGES) as pool:
        told = list(pool.map(opened, range(PAGES)))
    assert {status for status, _ in told} == {200}
    assert len({kernel for _, kernel in told}) == PAGES
    assert opened(0)[0] == 200
