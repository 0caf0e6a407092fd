"""Widgets, each beside its JavaScript."""
