"""Where a browser is due, a test that finds none fails; elsewhere it is skipped and says so."""

import pytest

from tests.helpers import chromium
from tests.helpers.paths import ROOT


@pytest.fixture
def no_browser(monkeypatch):
    monkeypatch.setattr(chromium.shutil, "which", lambda _: None)


@pytest.mark.usefixtures("no_browser")
@pytest.mark.parametrize(
    ("due", "outcome"), [("1", pytest.fail.Exception), ("", pytest.skip.Exception)]
)
def test_no_browser_is_a_failure_where_one_is_due(due, outcome, monkeypatch):
    monkeypatch.setenv(chromium.IS_DUE, due)
    with pytest.raises(outcome, match="install one of chromium"):
        chromium.browser_path()


def test_continuous_integration_says_that_one_is_due():
    assert f"export {chromium.IS_DUE}=1" in (ROOT / ".ci" / "run").read_text(encoding="utf-8")
