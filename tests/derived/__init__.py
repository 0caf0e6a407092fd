"""Formulas against what they follow from, worked out a second way; no published figure."""
