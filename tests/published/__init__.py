"""Published examples, one module a source: as printed, with the printed precision.

Beside each stands a sweep over the whole range against something independent.
"""
