"""The trade's prose, read: each row's words become a tree."""
