"""The papers of other people's trees as files: gathered, laid out, written as data, kept, held."""
