"""Every way to forge a record that we know of, and the words it is refused with."""
