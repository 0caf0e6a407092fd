"""The forms that a card has."""

SHORT, LONG = "short", "long"
CARD_FORMS = {
    SHORT: "short: two pages for a dozen rows",
    LONG: "long: a page for each bobbin, and one to keep",
}
"""Each in words, the usual one first."""
