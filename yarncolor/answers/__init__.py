"""Everything that follows from a plan laid out, and is judged."""
