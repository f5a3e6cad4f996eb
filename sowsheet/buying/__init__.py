"""What has to be there for the season: seed, sets, trays, compost, covers."""
