"""What a clause is by its neighbours: steps that each put one thing right before clauses are joined, or after."""
