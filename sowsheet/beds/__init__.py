"""What the beds want: compost."""
