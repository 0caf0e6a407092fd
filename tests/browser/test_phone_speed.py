"""How soon a tick is painted on a phone, at full speed and on a processor a quarter as fast."""

import statistics
import sys

import pytest

import yarncolor as yc
from tests.helpers.paths import TIDELINE
from yarncolor.plan import to_data

pytestmark = [pytest.mark.browser, pytest.mark.thorough]

PAINTED_MS = """() => new Promise(done => {
  const button = document.querySelector('.actions button.main');
  const channel = new MessageChannel();
  const began = performance.now();
  channel.port1.onmessage = () => done(performance.now() - began);
  button.click();
  requestAnimationFrame(() => channel.port2.postMessage(0));
})"""


@pytest.mark.parametrize(("slowed", "goal_ms"), [(1, 16), (4, 50)])
def test_a_tick_is_painted_before_the_thumb_is_lifted(phone, slowed, goal_ms, capsys):
    one = phone(to_data(yc.read_plan(TIDELINE)))
    one.tap("The next bobbin").tap("The next bobbin")
    session = one.context.new_cdp_session(one.page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": slowed})
    took_ms = statistics.median(one.page.evaluate(PAINTED_MS) for _ in range(41))
    with capsys.disabled():
        sys.stdout.write(f"\ntick to painted, slowed {slowed} times: {took_ms:.1f} ms")
    assert took_ms < goal_ms
