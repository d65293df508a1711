"""What the worked stitches come to: measures, yarn, materials, cautions and the abbreviation key."""

from booklet.amounts.amounts import amounts_as_json, compute_amounts

__all__ = ["amounts_as_json", "compute_amounts"]
