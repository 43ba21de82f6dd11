"""Highlighting of the language for common editors, made from the tables of acts and cards."""
