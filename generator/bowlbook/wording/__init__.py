"""Finished texts that the command line and the pages share: no HTML, no file, no arithmetic."""
