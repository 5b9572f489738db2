"""Tables to type into: rows of anything, columns that read them and make edits of what is typed."""
