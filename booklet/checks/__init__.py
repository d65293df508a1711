"""What holds over the whole pattern, checked in a fixed order."""
