"""The drawings of the pages, as SVG; the page says in words or figures what each of them shows."""
