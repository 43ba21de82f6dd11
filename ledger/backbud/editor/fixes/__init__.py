"""What an editor offers to mend a problem with: one file a fix, listed in `every.py`."""
