"""A whole book as plain data: JSON with its schema, and tables, for other programs."""
