"""What the command line and the pages both say, as finished text: no HTML, no file, no arithmetic."""
