"""From the worked pattern to pictures: schematic, colour plan, colour patches, fabric, photographs."""

from booklet.drawings.pattern import draw_pattern
from booklet.drawings.photos import check_image, prepare_image
from booklet.drawings.picture import Ink, Picture

__all__ = ["Ink", "Picture", "check_image", "draw_pattern", "prepare_image"]
