"""Pictures: everything is laid flat and planned in millimetres, then painted."""
