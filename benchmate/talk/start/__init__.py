"""The first start, and five minutes of learning."""
