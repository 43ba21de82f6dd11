"""Speaking with a CalDAV server: feeds are written there, and ticks come back as diary lines."""
