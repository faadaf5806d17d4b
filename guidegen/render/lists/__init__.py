"""Plans in → tables and archives for other programs: CSV, XLSX, JSON, DXF, packs."""
