"""What page and kernel say to each other."""
