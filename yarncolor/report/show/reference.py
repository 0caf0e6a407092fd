"""The keys of a plan file as tables, from where they are declared."""

from yarncolor.plan.reference import reference_rows
from yarncolor.report.show.fragment import Fragment, table

_HEAD = ("key", "what it says", "unit", "what would be right", "where it is left out", "schemes")


def show_keys(of_table: str) -> Fragment:
    """Return every key of a table of a plan file: meaning, unit, range, default, schemes.

    Parameters
    ----------
    of_table : str
        lots, scheme, spinning, plying, scale, bobbins, fabric or target; empty for the keys that
        stand above all tables.
    """
    columns = len(_HEAD) if of_table == "scheme" else len(_HEAD) - 1
    rows = [row[1 : columns + 1] for row in reference_rows() if row.table == of_table]
    if not rows:
        raise ValueError(f"there is no table {of_table!r}")
    return table(of_table or "above all tables", _HEAD[:columns], rows)
