"""Figures go in; drawings (SVG) with their key and the same figures as a table come out."""
