"""The language of the journal: reading it, telling what is wrong in it, and writing it tidily."""
