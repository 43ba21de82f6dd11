"""What a practitioner works out at the bench: pots, mixes, roots, wire, feed, water, time."""
