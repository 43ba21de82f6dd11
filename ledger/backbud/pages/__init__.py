"""The collection and its plan go in; static HTML pages come out."""
