"""Tells what is known of the weather of each place, by the diary, weather files and cards."""
