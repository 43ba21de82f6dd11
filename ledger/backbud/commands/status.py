"""The exit statuses, and what a command raises that cannot be carried out as it was given."""

FINE, PROBLEMS, MISUSE, FAILED = 0, 1, 2, 3


class Misuse(Exception):
    """The command cannot be carried out as it was given; the sentence says why."""
