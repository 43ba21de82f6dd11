"""Replays the diary on top of the cards, so that every tree is known as it was on any day."""
