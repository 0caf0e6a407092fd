"""What is remembered of a yarn when it is done: a page, numbers, and many yarns side by side."""
