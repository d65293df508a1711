"""Every form that a proved pattern can be given, each a function from what it is made of to its files."""
