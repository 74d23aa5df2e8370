"""Which tree is meant, one or many; and trees that come, go or get another name."""
