"""A plan under change, without a browser: typed, chosen, fitted, undone, saved."""
