"""The choice of tubes: integer program, exact search, certificate."""
