"""The language of the journal: text goes in, syntax and problems come out, and back."""
