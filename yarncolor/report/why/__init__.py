"""Why a figure is what it is: its formula with its numbers, where these are from, what is surer."""
