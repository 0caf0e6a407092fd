"""A browser for tests; where there is none they are skipped, or fail where one is due."""

import os
import shutil
from contextlib import contextmanager

import pytest

IS_DUE = "YARNCOLOR_BROWSER_IS_DUE"
"""What continuous integration sets: there a test that cannot be run is a failure."""

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]


def browser_path() -> str:
    """Return where a browser is."""
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    if found is None:
        told = f"no browser: install one of {', '.join(BROWSERS)} to run this test"
        (pytest.fail if os.environ.get(IS_DUE) else pytest.skip)(told)
    return found


@contextmanager
def launched():
    """Start a browser, and end it."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=browser_path(), args=FLAGS)
        yield browser
        browser.close()
