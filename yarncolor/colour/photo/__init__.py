"""Colours from a photograph: opened, put right, read, proposed as lots."""
