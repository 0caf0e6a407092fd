"""What is said, printed, shown and written of an answer."""
