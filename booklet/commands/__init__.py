"""Commands that answer a question of designing: rows of a shape, tables of sizes."""
