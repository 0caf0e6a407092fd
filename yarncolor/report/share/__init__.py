"""A sheet to share: the yarn at its best, for other people to look at."""
