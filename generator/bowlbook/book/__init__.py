"""A folder of files to one linked book: which file is which entry, and what names what."""
