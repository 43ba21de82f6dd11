"""Weather and a place go in; the sums that move a year's work come out."""
