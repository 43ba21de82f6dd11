"""Reads a journal: from the files in its folder, the cards and the dated events of the diary."""
