"""Who is hurt comes first: first aid, which sends to doctor, poison line or vet, and nothing logged of the tree."""

import pytest

from benchmate.telling import tell

EYE, WOUND, SWALLOWED, ANIMAL = "first-aid-eye", "first-aid-wound", "first-aid-swallowed", "first-aid-animal"
SKIN, BREATHED, BURN = "first-aid-skin", "first-aid-breathed", "first-aid-burn"
STING, HURT = "first-aid-sting", "first-aid-hurt"
WEEDKILLER, SPILL = "first-aid-weedkiller", "first-aid-spill"
OVERFED, KNOCKED = "first-aid-overfed", "knocked-over"


def first_aid(answer):
    cautions = answer.advice.cautions if answer.advice else ()
    return [caution.id for caution in cautions if caution.id.startswith("first-aid")]


@pytest.mark.parametrize(
    "words, caution",
    [
        ("got juniper sap in my eye", EYE),
        ("a wire end flew into my eye", EYE),
        ("splashed lime sulphur in my eyes, what do I do", EYE),
        ("my eye is stinging from the spray", EYE),
        ("poked my eye on the hawthorn", EYE),
        ("cut my finger, blade was dirty", WOUND),
        ("I've cut the tip of my thumb off", WOUND),
        ("stabbed myself with the chisel", WOUND),
        ("a thorn went into my hand", WOUND),
        ("my thumb won't stop bleeding", WOUND),
        ("the saw slipped and I sliced right through my left hand", WOUND),
        ("I swallowed some of the fungicide", SWALLOWED),
        ("my daughter ate some yew berries", SWALLOWED),
        ("the toddler has been chewing oleander leaves", SWALLOWED),
        ("I've eaten a few yew seeds", SWALLOWED),
        ("got bleach in my mouth", SWALLOWED),
        ("my dog ate a bit of the yew clippings", ANIMAL),
        ("the cat has been licking the lime sulphur", ANIMAL),
        ("our puppy chewed up the azalea", ANIMAL),
        ("dog has eaten some wisteria pods", ANIMAL),
        ("milky sap everywhere, dog licked it", ANIMAL),
        ("cat's been chewing the ficus", ANIMAL),
        ("goat got at the azalea", ANIMAL),
        ("my horse has been nibbling the yew", ANIMAL),
        ("the dog got hold of the laburnum pods and chewed them", ANIMAL),
        ("is my dog going to be ok, the pup swallowed yew seeds", ANIMAL),
        ("kid put a yew berry in his mouth", SWALLOWED),
        ("toddler has eaten some of the hawthorn berries", SWALLOWED),
        ("the neighbour's dog got into the bone meal", ANIMAL),
        ("the dog is being sick after the slug pellets", ANIMAL),
        ("fig sap all over my arms", SKIN),
        ("my hands are itching from the thuja", SKIN),
        ("breathed in the lime sulphur fumes", BREATHED),
        ("burnt my hand with the torch", BURN),
        ("a wasp stung me while I was wiring", STING),
        ("hurt my back lifting the pine", HURT),
        ("dropped the big pot on my foot", HURT),
        ("I fell off the ladder", HURT),
    ],
)
def test_the_hurt_comes_first_and_nothing_is_logged(bench, words, caution):
    answer = bench.answer(words)
    assert first_aid(answer) == [caution] and not answer.logged and not answer.confirm
    assert not answer.advice.options
    assert any(who in answer.advice.cautions[0].says for who in ("doctor", "poison line", "vet", "emergency number"))


@pytest.mark.parametrize(
    "words",
    [
        "keep an eye on the wire",
        "in my eyes it is too thick",
        "the trunk has caught my eye",
        "cut a branch as thick as my finger",
        "cut my thumb thick branch off",
        "did not cut my finger",
        "cut my finger last year on that branch",
        "pulled my back branch down with a guy",
        "my back branch is weak",
        "my dog rose is sick",
        "caterpillars ate the leaves",
        "rabbits ate the bark of the apple",
        "can the goat have the clippings",
        "are the berries safe for the kids",
        "what happens if the cat chews the azalea",
        "sprayed the weeds with weedkiller",
        "cleaned the pot with bleach",
        "no weedkiller near the maple",
        "deer have eaten the tips of the yew",
        "a squirrel chewed the bark off",
        "fed it blood fish and bone",
        "the maple is bleeding from the cut",
        "pinched it with my fingers",
        "slipped it into a bigger pot",
        "burnt the end of the jin with a torch",
        "sprayed the aphids by hand",
        "the kids ate the plums",
        "the left arm of the juniper is weak",
        "it drank a whole can of water",
        "cut back hard, it was my own idea",
        "the elm fell off the bench",
        "got it on the bench, in my eyes it is finished",
    ],
)
def test_what_only_sounds_like_it(bench, words):
    assert not first_aid(bench.answer(words))


def test_work_told_beside_it_is_logged(bench):
    answer = bench.answer("wired the left branch and cut my finger")
    assert first_aid(answer) == [WOUND] and answer.advice.cautions[0].id == WOUND
    assert [work["work"] for entry in answer.logged for work in entry.work] == ["wire"]


def test_what_was_damaged_beside_it_is_heard(bench):
    answer = bench.answer("the dog chewed the left branch")
    assert first_aid(answer) == [ANIMAL]


def test_it_is_told_in_full_each_time_and_above_all_else(bench):
    for _ in range(2):
        first, then = [line.words for line in tell(bench.answer("cut my thumb"), plain=True)][:2]
        assert first == "First see to whoever is hurt: nothing is logged of a tree."
        assert then.startswith("Press on it")


def test_what_waits_goes_on_waiting(bench):
    asked = bench.answer("it died")
    assert asked.confirm and bench.answer("cut my thumb") and bench.context.pending


def test_every_first_aid_is_told_somewhere(bench):
    ids = {id for id, table in bench.house.book.cautions.items() if table.get("told") or table.get("beside")}
    assert ids == {
        EYE,
        WOUND,
        SWALLOWED,
        ANIMAL,
        SKIN,
        BREATHED,
        BURN,
        STING,
        HURT,
        WEEDKILLER,
        SPILL,
        OVERFED,
        KNOCKED,
    }


@pytest.mark.parametrize(
    "words, caution, finding",
    [
        ("watered it with Roundup by mistake", WEEDKILLER, "weedkiller-accident"),
        ("Gatepost had weedkiller on it", WEEDKILLER, "weedkiller-accident"),
        ("poured weed killer on the roots thinking it was water", WEEDKILLER, "weedkiller-accident"),
        ("the lawn weedkiller blew over Gatepost", WEEDKILLER, "weedkiller-accident"),
        ("Gatepost got splashed with herbicide, what do I do", WEEDKILLER, "weedkiller-accident"),
        ("sprayed the path with weedkiller and some drifted on to Gatepost", WEEDKILLER, "weedkiller-accident"),
        ("caught some spray drift from the farm", WEEDKILLER, "weedkiller-accident"),
        ("my neighbour sprayed weedkiller and the leaves are twisting", WEEDKILLER, "weedkiller-accident"),
        ("they sprayed glyphosate next door, now its tips have gone strappy", WEEDKILLER, "weedkiller-accident"),
        ("spilt bleach in the pot", SPILL, "chemical-spill"),
        ("watered it with salt water by mistake", SPILL, "chemical-spill"),
        ("dog peed on it", SPILL, "chemical-spill"),
    ],
)
def test_what_poisons_a_tree_is_put_down_as_seen_and_rinsed(bench, words, caution, finding):
    answer = bench.answer(words)
    assert first_aid(answer) == [caution]
    assert [[fact["value"] for fact in entry.facts] for entry in answer.logged] == [[finding]]
    assert not [entry for entry in answer.logged if entry.work]
    best = answer.advice.options[0]
    assert (best.work, best.verdict) == ("water", "go")
    assert not [one for one in answer.advice.options if one.work in ("feed", "shorten") and one.verdict == "go"]
    assert next(line.words for line in tell(answer, plain=True)).startswith(caution.split("-")[-1].capitalize())


def test_each_of_several_trees_was_poisoned(bench):
    answer = bench.answer("watered Gatepost and Crag with weedkiller by mistake")
    assert [[fact["value"] for fact in entry.facts] for entry in answer.logged] == [["weedkiller-accident"]] * 2


def test_the_plant_that_was_eaten_is_told(bench):
    told = [caution.says for caution in bench.answer("the dog ate some yew clippings").advice.cautions]
    assert any(says.startswith("Taxus: Deadly poisonous") for says in told)


@pytest.mark.parametrize(
    "words, caution",
    [
        ("wind blew the pot off the bench, roots bare on one side", KNOCKED),
        ("the cat knocked it over, soil everywhere", KNOCKED),
        ("the tree fell out of its pot", KNOCKED),
        ("it got blown over in the night", KNOCKED),
        ("a fox pulled it out of the pot", KNOCKED),
        ("fed it at double the label by accident", OVERFED),
        ("gave it three times the feed by mistake", OVERFED),
        ("fed it a double dose", OVERFED),
        ("I forgot to dilute the feed", OVERFED),
    ],
)
def test_an_accident_of_the_tree_comes_first_and_is_remembered(bench, words, caution):
    answer = bench.answer(words)
    told = [one.id for one in answer.advice.cautions]
    assert caution in told and answer.says[0] == answer.advice.cautions[told.index(caution)].short
    assert (answer.advice.options[0].work, answer.advice.options[0].verdict) == ("water", "go")
    assert answer.logged
    asked = bench.answer("can I feed it").advice.options
    assert next(one.verdict for one in asked if one.work == "feed") != "go"


@pytest.mark.parametrize(
    "words",
    [
        "fed it twice this week",
        "the wind blew some leaves over the bench",
        "took it out of its pot to look at the roots",
        "roots coming out of the pot",
        "double the trunk in five years",
        "fed it at half the label's strength",
    ],
)
def test_what_is_no_accident_of_the_tree(bench, words):
    answer = bench.answer(words)
    assert not {OVERFED, KNOCKED} & {one.id for one in (answer.advice.cautions if answer.advice else ())}
