"""How a record looks: paper, type, marks, charts, and one module for each kind of page."""
