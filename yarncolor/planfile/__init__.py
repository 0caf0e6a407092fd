"""A plan file: its shape, its checks, in and out."""
