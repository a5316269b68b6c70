"""The copies of the house's pictures in a site: smaller, in sRGB, and without place and camera data."""

from collections.abc import Iterator
from importlib.metadata import version

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import InclusionLevel

from bowlbook.book.book import Book
from bowlbook.cache.cache import Cache
from bowlbook.cache.digest import digest_of
from bowlbook.entries.picture import pictures_in
from bowlbook.pages.picture import WIDTHS, Copy, copies_of
from bowlbook.reading.guard import read_bytes
from bowlbook.reading.picture import LARGEST, SeenPicture, opened
from bowlbook.site.own_file import MadeFile
from bowlbook.site.picture_copy import QUALITY, written


class PictureCopyFile(MadeFile):
    """A copy of a picture, made when it is written."""

    copy: Copy
    seen: SeenPicture
    cache: Cache

    @property
    def key(self) -> bytes:
        """The digest of everything it is made from."""
        return digest_of(repr((self.seen.digest, self.copy, QUALITY)), version("pillow"))

    @property
    def content_bytes(self) -> bytes:
        """The file's bytes."""
        return self.cache.get_or_make("picture copy", self.copy.path, self.key, self._made)

    @content_bytes.setter
    def content_bytes(self, value: bytes) -> None:
        raise AttributeError("the copy of a picture is made from the picture alone")

    def _made(self) -> bytes:
        with opened(read_bytes(self.seen.path, LARGEST)) as picture:
            return written(picture, self.copy)


def picture_files(book: Book, cache: Cache, config: MkDocsConfig, beneath: str) -> Iterator[PictureCopyFile]:
    """The copies of every picture that an entry of the book shows, ``beneath`` a folder of the site."""
    if not book.pictures:
        return  # no entry has to be loaded
    always = InclusionLevel.INCLUDED  # whatever is left out of docs
    names = {picture.file for _, entry in book.entries() for _, picture in pictures_in(entry)}
    for name in sorted(names):
        seen = book.pictures[name]
        for copy in copies_of(name, seen):
            file = PictureCopyFile.generated(config, f"{beneath}{copy.path}", content=b"", inclusion=always)
            assert isinstance(file, PictureCopyFile)
            file.copy, file.seen, file.cache = copy, seen, cache
            yield file


def left_on_the_server(files: list[PictureCopyFile]) -> set[str]:
    """The copies that the phone does not keep: all but the smallest of each picture."""
    return {each.dest_uri for each in files if each.copy.form == "JPEG" or each.copy.width > WIDTHS[0]}
