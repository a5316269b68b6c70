"""Entries as text in one order and one style: read with their comments, put in order, written out."""
