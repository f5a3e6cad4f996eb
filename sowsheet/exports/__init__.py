"""Files and tables that other programs, and people at a terminal, read."""
