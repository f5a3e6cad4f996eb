"""The command line: one thin module a command; whatever is heavy is imported where it is used."""
