"""A journal's own plugins: read once, shown to the person, and run only with their consent."""
