"""Speed, told as ratios of one run: what the package does against plain baselines.

Where benchmarks are switched off, each still runs once and its result is compared.
"""
