"""The trade's usual shapes as rows in ordinary notation: circle, crown, square, hexagon, sphere, oval, shaping."""
