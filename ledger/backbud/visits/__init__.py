"""Other people's trees in the house: their visits, and what each visit comes to in money."""
