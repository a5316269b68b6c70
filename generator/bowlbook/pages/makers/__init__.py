"""What makers run where it is more than a page; a module is loaded when one of its makers runs.

Here are the names of their pieces.
"""

PICK, PRACTICE, TRY, SITUATIONS = "pick", "practice", "try", "situations"
ROWS, BOWL, RECIPES, SHARE, CARD, TRIED = "rows", "bowl", "recipes", "share", "card", "tried"
SERVICE = "service"
"""Pieces of entries: rows of the reports on bowls, the smallest bowl, what heads are matched with, card, the
recipe for Try a blend, the row of a service in the report on costs."""
LISTED = "listed"
"""The piece of an entry that the list of its kind shows, for the kinds of `LISTED_BY_NAME`."""
LISTED_BY_NAME = ("blend", "technique", "class")
"""Kinds whose list is plainly by name: an edit makes it again only where what it shows is another."""
