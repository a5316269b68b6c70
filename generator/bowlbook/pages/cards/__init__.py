"""Cards for the bench, alone or in a deck.

A card is a document of its own, outside the site's theme: what is printed is what is there.
"""
