"""From words to tokens: what each stretch of words may be, what its neighbours leave of it, and the cheapest way."""
