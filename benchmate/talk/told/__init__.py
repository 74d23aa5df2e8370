"""Work and plans that are told in the talk, and what follows on them."""
