"""The text of a command line goes in; a sum of the bench comes out, with no journal at all."""
