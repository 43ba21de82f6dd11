"""What is shown, and to whom, as frozen data; pages, feeds, lines and JSON only lay it out."""
