"""The garden file as a frozen record: site, places, trays, beds and plan; nothing computed yet."""
