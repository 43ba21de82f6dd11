"""Writes what some eyes may have of a journal as data: SQLite, CSV, JSON, a Darwin Core archive."""
