"""The journals of the journal's tests are used here too."""

from tests.journal.conftest import open_store, path

__all__ = ["open_store", "path"]
