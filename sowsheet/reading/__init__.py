"""Text in; strict nodes with their places, growers' dates, measures and plan lines out."""
