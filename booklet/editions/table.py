"""Which function makes which edition."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from booklet.editions.commission import Commission, Made
from booklet.editions.ebook import write_ebook
from booklet.editions.folded import print_folded
from booklet.editions.fragment import write_fragment
from booklet.editions.handout import print_handout
from booklet.editions.listing import write_listing_text
from booklet.editions.pictures import write_pictures
from booklet.editions.printed import print_booklet, print_each_size, print_large, print_tester
from booklet.editions.text import write_text
from booklet.editions.web import write_page

MAKERS: Mapping[str, Callable[[Commission], Made]] = MappingProxyType(
    {
        "print": print_booklet,
        "single-size": print_each_size,
        "handout": print_handout,
        "large-print": print_large,
        "text": write_text,
        "folded": print_folded,
        "tester": print_tester,
        "web": write_page,
        "fragment": write_fragment,
        "pictures": write_pictures,
        "ebook": write_ebook,
        "listing": write_listing_text,
    }
)
"""By the names of `model/editions.py`, in their order."""
