"""How long a stage takes: a crop, the places on its route and a date in; the date it ends out."""
