"""What a phone brought home, in words."""

from collections.abc import Iterator

from yarncolor.phrases import counted
from yarncolor.planfile.taken_home import BroughtHome, rows_named


def brought_lines(found: BroughtHome) -> Iterator[str]:
    """Yield how much was brought home, and where the plan file said otherwise before."""
    pieces = sum(1 for _ in rows_named(found.plan.spun))
    yield f"Brought home: {counted(pieces, 'piece')} spun."
    for ply, row in found.overruled:
        yield f"Ply {ply}, row {row}: the plan file said otherwise; what the phone says stands."
