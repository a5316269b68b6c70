"""What a book holds: typed, immutable entries, one module a kind, and how they are read strictly."""
