"""The sums of the weather that move a year's work: heat, chill, frost, light, thirst."""
