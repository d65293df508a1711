"""The frozen data that passes hand to one another. No part of it computes anything of its own."""
