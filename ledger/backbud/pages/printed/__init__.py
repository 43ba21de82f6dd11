"""Sheets to be printed: the week by place, and labels."""
