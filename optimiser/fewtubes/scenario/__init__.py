"""What the painter asks for: budget, flowers and wishes."""
