"""One journal on the disk: linked lines, its head beside it, writing and reading."""
