"""Numbers and lists as a spinner reads them."""

from yarncolor.twist import tpi


def grams(mass_g: float, step_g: float) -> str:
    """Return a mass with as many decimals as the scale shows."""
    decimals = next((d for d in range(4) if abs(round(step_g, d) - step_g) < 1e-9), 3)
    return f"{mass_g:.{decimals}f}"


def with_tare(net: str, tare_g: float) -> str:
    """Return a weight as shown and an empty bobbin together, so that the three add up."""
    decimals = max(len(text.partition(".")[2]) for text in (net, f"{tare_g:.10g}"))
    return f"{float(net) + tare_g:.{decimals}f}"


def turns(twist_tpm: float) -> str:
    """Return turns to the inch, in words."""
    return f"{tpi(twist_tpm):.1f} turns to the inch"


def in_hours(time_h: float) -> str:
    """Return a time: minutes below an hour, tenths of hours below ten, whole hours above."""
    if time_h < 1:
        return f"{max(1, round(time_h * 60))} min"
    return f"{time_h:.1f} h" if time_h < 10 else f"{time_h:.0f} h"


def direction(twist: str) -> str:
    """Return which way the wheel turns for a direction of twist."""
    return "clockwise (Z)" if twist == "Z" else "anticlockwise (S)"


def listed(words: list[str]) -> str:
    """Return words in a row: a, b and c."""
    return " and ".join(filter(None, [", ".join(words[:-1]), words[-1]]))
