"""What several species have in common: pieces a species plugin is put together from."""
