"""The bench of colours from photographs."""
