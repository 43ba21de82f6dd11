"""Bringing lists from spreadsheets and calendars of past work in: tables -> cards, acts, words."""
