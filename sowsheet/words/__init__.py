"""Numbers, dates and names put into the reader's words."""
