"""What backbud knows of each species: one module each, and in `habits` what several share."""
