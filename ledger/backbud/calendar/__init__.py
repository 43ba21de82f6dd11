"""Feeds of follow-ups that a calendar can subscribe to."""
