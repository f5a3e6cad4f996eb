"""What the site decides: the season, the sun, frost dates by year, temperatures and the chance of cold nights."""
