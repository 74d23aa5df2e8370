"""The commands: arguments in, lines or JSON on standard output, an exit status out. The talk itself is not here."""
