"""A journal's pages and feeds, kept up to date and served on this machine."""
