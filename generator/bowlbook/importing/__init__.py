"""A spreadsheet to entries: read the table, match its columns, read its cells, try the entries."""
