"""A journal's folder goes in; its pages and feeds are served on this machine, always up to date."""
