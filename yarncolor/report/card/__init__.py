"""The card for the wheel, on paper."""
