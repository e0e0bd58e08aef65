"""What every page is drawn with: paper, letters, tags, marks, tables that go on, charts."""
