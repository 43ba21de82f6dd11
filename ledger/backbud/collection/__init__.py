"""Cards and events go in; what every tree, pot and place was on any day comes out."""
