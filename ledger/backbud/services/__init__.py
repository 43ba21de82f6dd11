"""Asks public met services for forecasts and past days, and writes them into a journal's folder."""
