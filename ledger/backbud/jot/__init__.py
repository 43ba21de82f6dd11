"""Writing single lines into the diary, quickly, with all else in it left as it is."""
