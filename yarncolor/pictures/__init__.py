"""Scenes, and how they get their colours."""
