"""Where each page of a book stands in the site."""

from bowlbook.book.folder import FOLDER_OF


def entry_address(kind: str, entry_id: str) -> str:
    """The address of an entry's page, from the site's top."""
    return f"{FOLDER_OF[kind]}/{entry_id}/"


def index_address(kind: str) -> str:
    """The address of a kind's index."""
    return f"{FOLDER_OF[kind]}/"


def relative(address: str, start: str) -> str:
    """``address`` as a link from the page at ``start``; both from the site's top, ending in a slash or empty.

    An anchor may follow the address. Links are relative, so that a site works under any folder.
    """
    # Every page is a folder with an index: its depth is the number of slashes in its address.
    up = "../" * start.count("/")
    return up + address or "./"
