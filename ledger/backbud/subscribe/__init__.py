"""Feeds go out to a CalDAV server, and what was ticked off there comes back as diary lines."""
