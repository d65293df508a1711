"""Every stitch of every row, worked once per size."""
