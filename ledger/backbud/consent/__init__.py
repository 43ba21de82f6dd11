"""Whether the person consents to a journal's own code: it is read once, shown, and recorded."""
