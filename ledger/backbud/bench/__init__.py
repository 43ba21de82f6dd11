"""Sizes go in; what a practitioner works out at the bench comes out."""
