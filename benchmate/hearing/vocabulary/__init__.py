"""The words: text taken apart, and the lexicon that holds every word the bench knows."""
