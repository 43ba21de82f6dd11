"""Moves years long past out of the way: what they say is read as before."""
