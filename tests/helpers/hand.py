"""A hand on the page: what it does is counted, a click, one typing into a field, one choice."""

import re


class Hand:
    """A hand on the page that counts what it does."""

    def __init__(self, page) -> None:
        self.page, self.actions = page, []

    def click(self, words) -> None:
        """Click what says so, a button or a fold."""
        self._do("click", words)
        said = self.page.get_by_role("button", name=words, exact=True)
        said.or_(self.page.locator("summary", has_text=words)).first.click()

    def type(self, field, text) -> None:
        """Type into the field that is called so, or put into it what was copied."""
        self._do("type", field)
        self.page.get_by_label(re.compile(f"^{re.escape(field)}")).first.fill(text)
        self.page.keyboard.press("Tab")

    def type_into(self, selector, text) -> None:
        """Type into the field that a selector finds."""
        self._do("type", selector)
        self.page.locator(selector).fill(text)

    def choose_file(self, selector, path) -> None:
        """Choose a file."""
        self._do("choose a file", path.name)
        self.page.locator(selector).set_input_files(path)

    def choose(self, chooser, words) -> None:
        """Choose from a list."""
        self._do("choose", chooser)
        self.page.get_by_label(chooser, exact=True).first.select_option(label=words)

    def drag(self, lot, places) -> None:
        """Move a lot's slider by some places."""
        self._do("drag", lot)
        slider = self.page.get_by_label(f"place of {lot}")
        slider.focus()
        for _ in range(places):
            self.page.keyboard.press("ArrowRight")

    def _do(self, *what) -> None:
        self.actions.append(" ".join(what))
