"""What a yarn is as a thing: its formulas, and the yarn that the tables of a plan make."""

__all__: list[str] = []
