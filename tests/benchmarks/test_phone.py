"""How soon a tick is painted on a phone, beside a page of one button and one line."""

import statistics
import sys
from concurrent.futures import ThreadPoolExecutor

import pytest

import yarncolor as yc
from tests.helpers.chromium import browser_path, launched
from tests.helpers.paths import TIDELINE
from tests.helpers.phone import SMALL, Phone
from yarncolor.plan import to_data

ONE_BUTTON = """<!doctype html><title>one button</title><nav><button>here</button></nav>
<div class="actions"><button class="main">Next</button></div><p>0</p>
<script>
const line = document.querySelector("p");
let presses = 0;
document.querySelector(".main").onclick = () => { line.textContent = presses += 1; };
</script>"""

PAINTED_MS = """() => new Promise(done => {
  const button = document.querySelector('.actions button.main');
  const channel = new MessageChannel();
  const began = performance.now();
  channel.port1.onmessage = () => done(performance.now() - began);
  button.click();
  requestAnimationFrame(() => channel.port2.postMessage(0));
})"""

_TICKS = 41


def timed_pairs(folder, slowed: int) -> tuple[list[tuple[float, float]], str]:
    """Return milliseconds until one line and a tick are painted, and what was ticked last."""
    with launched() as browser:
        context = browser.new_context(viewport=SMALL, has_touch=True, is_mobile=True, offline=True)
        (folder / "button.html").write_text(ONE_BUTTON)
        one = Phone(context, folder / "button.html").open()
        wheel = Phone(context, folder / "wheel.html").load(to_data(yc.read_plan(TIDELINE)))
        wheel.tap("The next bobbin").tap("The next bobbin")
        for each in (one, wheel):
            session = context.new_cdp_session(each.page)
            session.send("Emulation.setCPUThrottlingRate", {"rate": slowed})
        pairs = []
        for _ in range(_TICKS):
            one.page.bring_to_front()
            button_ms = one.page.evaluate(PAINTED_MS)
            wheel.page.bring_to_front()
            pairs.append((button_ms, wheel.page.evaluate(PAINTED_MS)))
        return pairs, wheel.page.locator(".done").inner_text()


@pytest.mark.browser
@pytest.mark.thorough
@pytest.mark.parametrize("slowed", [1, 4])
def test_a_tick_is_painted_about_as_soon_as_one_line(tmp_path, capsys, slowed):
    browser_path()
    with ThreadPoolExecutor(1) as alone:
        # in a thread of its own: another browser may run in this one
        pairs, last = alone.submit(timed_pairs, tmp_path, slowed).result()
    button_ms, tick_ms = map(statistics.median, zip(*pairs, strict=True))
    with capsys.disabled():
        sys.stdout.write(f"\npainted, slowed {slowed} times: one line {button_ms:.1f} ms, ")
        sys.stdout.write(f"a tick {tick_ms:.1f} ms: {tick_ms / button_ms:.2f} times")
    assert "spun" in last
