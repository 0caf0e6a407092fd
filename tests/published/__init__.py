"""What was printed elsewhere, one module a source: as printed, with the printed precision.

Each names its work, table or page, what was read of it, and what is from memory for want of an open
copy. Beside the examples stand sweeps over the whole range against something independent; what is
derived alone stands in `tests/derived`.
"""
