"""The form of every key of a plan."""
