"""The order of lots under a finger."""
