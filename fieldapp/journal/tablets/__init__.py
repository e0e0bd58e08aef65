"""The journals of several tablets as one story, and what a disk lost."""
