"""The collection and its species go in; dated, explained follow-ups come out."""
