"""Fragments for notebooks and the page."""
