"""The first page of a record: outcome, line diagram, key figures, signatures."""
