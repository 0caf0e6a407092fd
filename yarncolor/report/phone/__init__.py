"""The card for a phone: one page that asks for nothing, and keeps what is ticked on it."""
