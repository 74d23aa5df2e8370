"""What every test may count on: works are told in the words of the rules that ship, and generated cases are the same
in every run, so that main fails for what was changed and not by the luck of a draw. To draw anew:
`pytest --hypothesis-profile=search`.
"""

from hypothesis import settings

from benchmate.talk.house import House

HOUSE = House(None)  # from here on they are known; a house made later brings its own

settings.register_profile("gate", derandomize=True, deadline=None)
settings.register_profile("search", max_examples=1000, deadline=None)
settings.load_profile("gate")
