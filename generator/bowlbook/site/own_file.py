"""Files of a site with an explicit modified flag, which MkDocs asks before it writes one."""

from collections.abc import Generator, Iterable

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, InclusionLevel
from mkdocs.utils import write_file

from bowlbook.cache.digest import digest_of
from bowlbook.cache.processes import all_made
from bowlbook.site.book_pages import Finished


class OwnFile(File):
    """A file with an explicit modified flag."""

    modified = True

    @property
    def src_path(self) -> str:
        """As of any file."""
        return super().src_path

    @src_path.setter
    def src_path(self, value: str) -> None:
        """Ours have slashes on every system: thousands of them need not be taken apart."""
        self.src_uri = value

    def is_modified(self) -> bool:
        """Whether to write it."""
        return self.modified


class MadeFile(OwnFile):
    """A file whose bytes are made or loaded when it is written, and whose key is known before."""

    @property
    def key(self) -> bytes:
        """The digest of everything it is made from."""
        raise NotImplementedError

    is_waiting = False
    """Whether it is written by `begin_writing`."""

    def copy_file(self, dirty: bool = False) -> None:
        """Write it, if it is to be written now."""
        if not self.is_waiting and (self.modified or not dirty):
            self.write()

    def write(self) -> None:
        """Write it."""
        write_file(self.content_bytes, self.abs_dest_path)


class DocumentFile(MadeFile):
    """A document of the book, loaded when it is written."""

    finished: Finished
    _replaced: bytes | None = None

    @property
    def content_bytes(self) -> bytes:
        """The file's bytes."""
        return self.finished.content if self._replaced is None else self._replaced

    @content_bytes.setter
    def content_bytes(self, value: bytes) -> None:
        """Another content, by another plugin."""
        self._replaced = value

    @property
    def key(self) -> bytes:
        """The digest of its bytes."""
        return self.finished.head.digest if self._replaced is None else digest_of(self._replaced)


def document_file(path: str, document: Finished, config: MkDocsConfig) -> DocumentFile:
    """The file of a document at a path from the site's top."""
    file = DocumentFile.generated(config, path, content=b"")
    assert isinstance(file, DocumentFile)
    file.finished = document
    return file


def begin_writing(files: Iterable[File]) -> Generator[object, None, None]:
    """Begin to write the documents among files in other processes; MkDocs does not write them then.

    All are written when the result is exhausted.
    """
    made = [each for each in files if isinstance(each, DocumentFile)]
    for each in made:
        each.is_waiting = each.inclusion.value > InclusionLevel.DRAFT.value
    writing = all_made([each.write for each in made if each.is_waiting])
    next(writing, None)
    return writing


def is_found(file: File) -> bool:
    """Whether MkDocs found it in a folder, rather than a plugin generated it."""
    return type(file) is File and file.generated_by is None and file.src_dir is not None


def with_flag(file: File) -> File:
    """The same file with a modified flag."""
    assert file.src_dir is not None
    place = (file.src_uri, file.src_dir, file.dest_dir, file.use_directory_urls)
    made = OwnFile(*place, inclusion=file.inclusion)
    made.dest_uri = file.dest_uri
    return made
