"""A browser for tests; they are skipped, and say so, where there is none."""

import shutil
from contextlib import contextmanager

import pytest

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]


def browser_path() -> str:
    """Return where a browser is."""
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    if found is None:
        pytest.skip(f"no browser: install one of {', '.join(BROWSERS)} to run this test")
    return found


@contextmanager
def launched():
    """Start a browser, and end it."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=browser_path(), args=FLAGS)
        yield browser
        browser.close()
