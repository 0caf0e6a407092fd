"""The forms that a card has."""

from yarncolor.errors import fail, quoted

SHORT, LONG = "short", "long"
CARD_FORMS = {
    SHORT: "short: two pages for a dozen rows",
    LONG: "long: a page for each bobbin, and one to keep",
}
"""Each in words, the usual one first."""


def check_form(form: str) -> None:
    """Raise `PlanError` for a form that there is not."""
    if form not in CARD_FORMS:
        fail(f"card = {quoted(form)}", f"give {' or '.join(map(quoted, CARD_FORMS))}")
