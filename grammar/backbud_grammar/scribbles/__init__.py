"""How a line is read that the bench wrote and the tables do not have word for word."""
