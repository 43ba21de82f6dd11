"""What is known of each species, and its year, for `backbud species`."""
