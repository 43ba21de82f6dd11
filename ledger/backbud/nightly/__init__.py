"""What runs by itself: fetch, make, publish, one line of what changed, and how to set that up."""
