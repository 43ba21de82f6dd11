"""The language server: what an editor asks of a journal while it is written."""
