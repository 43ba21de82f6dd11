"""Other people's code: found, run for so long at most, and what it adds checked before use."""
