"""What the trade builds beside plain parts: rows that move, cloth, letters, things, circuits."""
