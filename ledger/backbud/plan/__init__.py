"""Finds what falls due on every tree, when, and why; and what water and materials that takes."""
