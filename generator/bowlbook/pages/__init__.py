"""What a reader sees: each page as HTML, made from entries and figures, with no MkDocs and no arithmetic."""
