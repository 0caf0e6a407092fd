"""Our words for a contrast. The cut-offs are ours and stand here alone.

No published study of perceived contrast in marled yarn was found, so these are judgement:
"alike" ends where a difference is just seen, the others divide what is left by eye.
"""

ALIKE_BELOW = 2.3
"""CIEDE2000 that is just seen."""
CLOSE_BELOW = 10.0
"""CIEDE2000 up to which neighbours blur rather than draw a line."""
LOUD_FROM = 70.0
"""HyAB from which a marl is loud: about black beside cream, or red beside navy."""

EXPLAINED = (
    f"alike: hardly told apart (CIEDE2000 under {ALIKE_BELOW:g}); close: told apart side by side "
    f"(under {CLOSE_BELOW:g}); clear: a line is drawn; loud: seen across the room (HyAB "
    f"{LOUD_FROM:g} or more). The cut-offs are ours."
)


def contrast_word(ciede2000: float, hyab: float) -> str:
    """Return alike, close, clear or loud.

    Parameters
    ----------
    ciede2000 : float
        For "do these match": made for small differences.
    hyab : float
        For "how loud": made for large ones.
    """
    if ciede2000 < ALIKE_BELOW:
        return "alike"
    if ciede2000 < CLOSE_BELOW:
        return "close"
    return "loud" if hyab >= LOUD_FROM else "clear"
