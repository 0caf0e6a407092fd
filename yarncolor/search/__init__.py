"""Which order is best: every order of a plan's lots valued, or as many as there is time for."""
