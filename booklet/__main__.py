"""`python -m booklet`, where the command itself is not on the path."""

from booklet.cli import main

if __name__ == "__main__":
    main(prog_name="booklet")
