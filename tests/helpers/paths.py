"""Where the tests find what they read: the checkout and its sample plans."""

from pathlib import Path

ROOT = Path(__file__).parents[2]
SAMPLE_DATA = ROOT / "sample_data"
SAMPLES = sorted(SAMPLE_DATA.glob("*.toml"))
TIDELINE = SAMPLE_DATA / "tideline.toml"
