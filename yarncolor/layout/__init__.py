"""From a plan to stretches: the part that follows a finger."""
