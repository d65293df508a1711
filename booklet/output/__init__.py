"""What stands in build/ in the end: PDF from HTML, and files that are replaced whole or not at all."""
