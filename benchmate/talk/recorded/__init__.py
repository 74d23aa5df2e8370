"""What is asked of the record."""
