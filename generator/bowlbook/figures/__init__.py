"""The figures that the book exists for: exact, pure, and ignorant of files, HTML and the clock."""
