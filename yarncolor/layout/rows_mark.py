"""A mark of the rows that a plan has: two plans of one mark have the same rows to tick."""

from zlib import crc32

from yarncolor.layout.portions import Portions, row_numbers


def rows_mark(planned: Portions, names: tuple[str, ...]) -> str:
    """Return a mark of all rows: which lot, how many grams to the microgram, on which ply.

    Parameters
    ----------
    planned : Portions
        The rows as planned.
    names : tuple of str
        Of the lots.
    """
    columns = (planned.ply, row_numbers(planned), planned.mass_g, planned.lot)
    rows = [
        f"{ply} {row} {mass_g:.6f} {names[lot]}"
        for ply, row, mass_g, lot in zip(*(each.tolist() for each in columns), strict=True)
    ]
    return f"{crc32(chr(10).join(rows).encode()):08x}"
