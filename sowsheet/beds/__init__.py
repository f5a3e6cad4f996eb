"""Who stands in which bed and when, what is empty, and where one crop follows another."""
