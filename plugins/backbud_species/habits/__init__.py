"""What several species have in common: pieces a species plugin is put together from.

Work that belongs to a season lapses with it; what an act demands stays until it is done.
"""
