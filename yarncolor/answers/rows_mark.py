"""A mark of the rows that a plan has: two plans of one mark have the same rows to tick."""

from zlib import crc32

from yarncolor.answers.answer import Answer


def rows_mark(answer: Answer) -> str:
    """Return a mark of all rows: which lot, how many grams to the microgram, on which ply."""
    names = answer.plan.names
    rows = (
        f"{single.ply} {row.number} {row.mass_g:.6f} {names[row.lot]}"
        for single in answer.weigh_out
        for row in single.rows
    )
    return f"{crc32(chr(10).join(rows).encode()):08x}"
