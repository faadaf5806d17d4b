"""A content folder in → its site on this machine, made as it is read and anew on every change."""
