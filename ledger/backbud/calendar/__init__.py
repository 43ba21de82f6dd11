"""Follow-ups go in; iCalendar feeds come out."""
