"""Files go in; cards and dated events come out, with every problem found on the way."""
