"""A catalogue of one's own: begun, added to, merged and brought in from spreadsheets."""
