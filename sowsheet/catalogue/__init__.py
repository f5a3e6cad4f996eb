"""What is known of each crop, every number with its source."""
