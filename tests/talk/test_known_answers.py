"""Questions of plain knowledge: answered by what is known of the kind, no work offered, nothing logged."""

import datetime as dt

import pytest

from benchmate.talk.asked.known_answers import known_answer
from benchmate.talk.bench import Bench
from benchmate.talk.house import House


@pytest.mark.parametrize(
    "words, opens",
    [
        ("yew clippings, can the goat have them", "Taxus: Deadly poisonous"),
        ("are yew berries safe for the kids", "Taxus: Deadly poisonous"),
        ("can I feed the box clippings to the sheep", "Buxus: Poisonous"),
        ("what happens if the cat chews the azalea", "Rhododendron: Poisonous"),
        ("is it safe to have the azalea where the toddler plays", "Rhododendron: Poisonous"),
        ("is wisteria poisonous", "Wisteria: Poisonous"),
        ("we've got a puppy, is the yew dangerous", "Taxus: Deadly poisonous"),
        ("how poisonous is oleander", "Nerium oleander: Deadly poisonous"),
        ("will privet berries hurt the hens", "Ligustrum: Poisonous"),
        ("can you eat the crab apples", "Malus: Mildly poisonous"),
        ("is the maple ok for rabbits to nibble", "Acer campestre: Not known as poisonous"),
        ("is bone meal safe for dogs", "That stands on the label"),
        ("can I burn the yew clippings", "Taxus: No: the smoke"),
        ("can I use weedkiller near the trees", "Not near trees in pots"),
        ("what soil should I put the satsuki in", "Rhododendron indicum: Lime-free, acid soil"),
        ("what compost for the camellia", "Camellia: Lime-free, acid soil"),
        ("does the azalea mind hard water", "Rhododendron: Lime-free, acid soil"),
        ("which mix for a black pine", "Pinus thunbergii: Open, gritty"),
        ("what substrate for jade", "Crassula ovata: Very gritty"),
        ("when can I sever the air layer", "By the roots and not by the calendar"),
        ("how long until the layer roots", "Acer campestre: Six to twelve weeks"),
        ("how do I know when the air layer has rooted", "Acer campestre: Six to twelve weeks"),
        ("when does the beech drop its old leaves", "Fagus sylvatica: This kind keeps its dead leaves"),
        ("how do I get rid of wire marks", "Wire still on where it marks comes off"),
        ("can I use bleach and vinegar to clean my pruners", "No, never together"),
        ("is it ok to mix vinegar with the bleach", "No, never together"),
        ("is lime sulphur dangerous", "Yes: it burns eyes and skin"),
        ("olive in a garage with no window, ok?", "Olea europaea: Not for the winter"),
        ("should I thaw the pine out with warm water", "Pinus sylvestris: No: leave it frozen"),
        ("where exactly do I cut, above which bud", "Acer campestre: Above a bud that points"),
        ("which bud do I cut the juniper to", "Juniperus chinensis: Back to a side shoot"),
        ("how many buds do I leave when I cut back in autumn", "Acer campestre: To two leaves"),
        ("how far back can I cut the juniper's shoots", "Juniperus chinensis: As far as green"),
        ("what do I do with three buds at one spot", "Two are left, one to each side"),
        ("three candles at every tip, reduce to two?", "Acer campestre: Where three or more"),
        ("which branch first", "Thick before thin"),
        ("how long should wire stay on the maple", "Acer campestre: One growing season"),
        ("how long does wire stay on the fig", "Ficus microcarpa: Six to twelve weeks"),
        ("can the olive take a bit of frost", "Olea europaea: A little, in its crown"),
        ("can the fig take a little frost", "Ficus microcarpa: No: it is hurt well above freezing"),
        ("will the juniper survive a night of frost", "Juniperus chinensis: Yes, once its growth is ripe"),
        ("when can the fig go outside", "Ficus microcarpa: Once nights stay above"),
        ("when should I bring the olive in", "Olea europaea: As late as can be"),
        ("moss all over the trunk", "It takes nothing from the tree"),
        ("moss on the soil", "No harm by itself"),
        ("is it alive", "Acer campestre: Scratch the bark"),
        ("is the pine dead or alive", "Pinus sylvestris: Scratch the bark"),
        ("what are the signs it has recovered", "Acer campestre: By growth and not by leaf alone"),
        ("how do I know the juniper is healthy", "Juniperus chinensis: By the tips"),
        ("sudden new growth, can I relax", "No: the first leaves and shoots come from"),
        ("larch going yellow, is it dying", "Larix decidua: It is not the season for it"),
        ("juniper needles yellow inside, mite or old foliage", "Juniperus chinensis: Old foliage, where"),
        ("beech leaves brown and hanging on, normal?", "Fagus sylvatica: This kind keeps its dead leaves"),
        ("fig dropped half its leaves since I moved it, is it dying", "Ficus microcarpa: Not dying by that"),
        ("fig's soil dries slow, water weekly still?", "No: by the soil and never by the calendar"),
        ("should I water the elm every day", "No: by the soil and never by the calendar"),
        ("water in the morning or in the evening", "When the soil begins to dry"),
        ("feed before or after repotting", "After, and not at once"),
        ("should I feed before or after the second flush", "After: feed once the flush has hardened"),
        ("elm still has green leaves in december, do I strip them", "Ulmus parvifolia: No: left on"),
        ("why shouldn't I cut flush", "Acer campestre: A short stub first"),
        ("fig cut dripping white, stop it?", "It stops by itself"),
        ("is rainwater better than tap", "Acer campestre: Either does"),
        ("rain water or tap for the azalea", "Rhododendron: Rain water"),
        ("is lime in the tap water a problem", "Acer campestre: Either does"),
        ("lime or mould on the trunk", "Wet it and scratch it"),
        ("do humidity trays help", "Little: the air over it"),
        ("should I bag the juniper", "Juniperus chinensis: After digging"),
        ("plastic bag over it to keep it moist, good idea", "Acer campestre: Only while it stands in leaf"),
        ("pellets or liquid feed", "Both feed"),
        ("white mould among the roots, is that bad", "Acer campestre: Good or harmless"),
        ("white threads in the pine's rootball, is that bad", "Pinus sylvestris: Good"),
        ("are the mushrooms in the pot a problem", "Harmless to the tree"),
        ("raffia first or no need", "Not on thin or supple shoots"),
        ("guy or wire", "A guy where one pull"),
        ("how high should the first branch be", "About a third of the way up"),
        ("which branches should be thickest", "The lowest"),
        ("how do I even out the two sides", "Acer campestre: The strong side gives"),
        ("how do I balance the pine", "Pinus sylvestris: The strong side gives"),
        ("how do I make a new leader", "It is wired or tied upright"),
        ("branch pokes out at the viewer, off with it?", "In the lower two thirds"),
        ("how do I get the pine to shoot on old wood", "Pinus sylvestris: By strength and light"),
        ("how do I get back buds on the juniper", "Juniperus chinensis: It seldom does"),
        ("how do I encourage backbudding", "Acer campestre: By strength, light and a cut"),
        ("would decandling give the Scots pine shorter needles", "Pinus sylvestris: Not by cutting whole"),
        ("how do I get shorter needles on the black pine", "Pinus thunbergii: By the second growth"),
        ("can I thin the pine's candles", "Pinus sylvestris: Where three or more"),
        ("thin the juniper's pads from below?", "Juniperus chinensis: Yes, from below first"),
        ("new leaves, is it out of the woods", "No: the first leaves"),
        ("when do the beech leaves turn", "Fagus sylvatica: In autumn"),
        ("when will the leaves fall", "Acer campestre: In autumn"),
        ("sacrifice branch, when does it come off", "When the trunk or branch"),
        ("how do I double the trunk in five years", "By leaf and root"),
        ("how many tips do I get from three flushes", "Each shortening"),
        ("how thick a guy for a 20 mm branch", "Thin: a guy only pulls"),
    ],
)
def test_the_answer_goes_by_what_is_known_of_the_kind(bench, words, opens):
    answer = bench.answer(words)
    assert answer.says[0].startswith(opens)
    assert not answer.logged and not (answer.advice and answer.advice.options)


@pytest.mark.parametrize(
    "words",
    [
        "is it safe to repot it",
        "is it ok to prune the yew now",
        "can I let the kids water it",
        "is it too cold for it",
        "will frost kill it",
        "should I feed it",
        "give it a feed",
        "is it better to wire it or guy it",
        "should I guy the branch",
        "can I thin the leaves",
        "can I pinch it",
        "crossing branch at the front, cut it off",
        "can I bag up the prunings",
        "is that bad for it",
    ],
)
def test_questions_of_work_stay_what_they_were(bench, words):
    assert bench.answer(words).reading.topic != "known"


@pytest.mark.parametrize(
    "day, words, opens",
    [
        ("2026-09-25", "larch going gold, is it dying or just autumn", "Larix decidua: Autumn, and not dying"),
        ("2026-10-10", "maple leaves all gone yellow, normal?", "Acer campestre: Autumn, and not dying"),
        ("2026-05-10", "larch going gold, is it dying or just autumn", "Larix decidua: It is not the season"),
    ],
)
def test_an_answer_may_hold_for_a_part_of_the_year(demo, day, words, opens):
    assert Bench(House(demo), dt.date.fromisoformat(day), tree="Gatepost").answer(words).says[0].startswith(opens)


def test_trees_to_worry_about_are_those_that_are_weak(bench):
    assert "Sprint" in bench.answer("any tree I should worry about").says[0]


def test_the_trees_of_the_garden_by_how_they_harm(bench):
    says = bench.answer("which of my trees are poisonous").says
    assert len(says) > 1 and says[-1].startswith("Not known as poisonous: ")


def test_work_told_beside_the_question_is_logged(bench):
    answer = bench.answer("shortened it, are the clippings safe for the goat")
    assert [work["work"] for entry in answer.logged for work in entry.work] == ["shorten"]
    assert answer.says[0].startswith("Acer campestre: Not known")


@pytest.mark.parametrize(
    "words, opens, kinds",
    [
        ("snow on the pine, knock it off?", "Yes while it is soft", ["seen"]),
        ("the maple's shoots have eight leaves now, how far back do I cut them", "Acer campestre: To two", ["seen"]),
        ("wired the larch today, how long does it stay on", "Larix decidua: One growing season", ["done"]),
        ("wire the juniper in september, how long on", "Juniperus chinensis: One to two years", []),
    ],
)
def test_what_is_told_across_the_question_is_kept(bench, words, opens, kinds):
    answer = bench.answer(words)
    assert answer.says[0].startswith(opens) and [entry.kind for entry in answer.logged] == kinds


def test_a_layer_on_record_is_reckoned_from_its_day(bench):
    bench.answer("air layered the top of Gatepost")
    told = bench.answer("when can I separate it").says
    assert told[0].startswith("Done 14 June") and "9 August" in told[0]
    assert told[1].startswith("By the roots")


@pytest.mark.parametrize(
    "words, work",
    [
        ("wire the left shoot up as the new leader", "wire"),
        ("crossing branch at the front, cut it off", "remove"),
        ("took the flowers off, the new leader comes from a side shoot", "remove-flowers"),
    ],
)
def test_what_is_told_near_a_question_is_logged(bench, words, work):
    assert work in [one["work"] for entry in bench.answer(words).logged for one in entry.work]


@pytest.mark.parametrize(
    "words",
    [
        "how long do the roots take to recover",
        "when can I take the wire off",
        "check the soil",
        "the soil is dry",
        "what soil is it in",
        "note: lichen on the bark near the soil",
        "put moss on the soil",
        "wire the first branch",
        "the birch is losing its leaves for autumn",
        "three branches coming from the same point",
        "how much bend will it take",
        "when can it go in full sun",
        "how many leaves are left if I cut 20 of 60",
    ],
)
def test_what_is_asked_of_other_things_stays_what_it_was(bench, words):
    assert bench.answer(words).reading.topic != "known"


def test_every_answer_is_told_by_some_question(bench):
    assert set(bench.house.answers["question"]) == {
        "a-little-frost", "above-which-bud", "air-layer-roots", "air-layer-severed", "alive-or-dead", "at-the-viewer",
        "bag-over", "bleach-and-acid", "broken-pot", "buds-back", "burnt", "cakes-or-liquid", "candles-past-it",
        "colours-in-autumn", "dark-winter", "double-feed", "dropped-after-a-move", "eaten", "eaten-which", "even-out",
        "feed-round-flush", "feed-round-repotting", "finger-pinching", "first-branch-height", "green-leaves-in-winter",
        "guy-thickness", "held-leaves", "how-much-leaf", "how-much-root", "humidity-tray", "idle-year", "indoors",
        "last-nitrogen", "leaves-turn", "lime-or-fungus", "lime-sulphur-risk", "milky-sap", "moss-on-bark",
        "moss-on-soil", "needle-length", "new-leader", "old-needles", "past-the-worst", "pot-in-water",
        "product-eaten", "raffia-needed", "rain-or-tap", "ready-for-work", "rooted-yet", "sacrifice-off",
        "shoots-how-far", "signs-of-health", "snow-off", "soil", "stub-or-flush", "thaw", "thick-branches",
        "thicker-trunk", "thin-candles", "thin-pads", "three-at-one-spot", "tips-multiplied", "toadstools",
        "trees-to-worry-about", "water-by-calendar", "water-what-hour", "weedkiller-near", "when-in", "when-out",
        "which-candles", "white-threads", "wire-how-long", "wire-marks", "wire-or-guy", "wire-swallowed",
        "wiring-order",
    }  # fmt: skip


@pytest.mark.parametrize(
    "words, opens, work, verdict",
    [
        ("feed it triple?", "No: more than the label says", "feed", "avoid"),
        ("what if I fed it double to speed it up", "No: more than the label says", "feed", "avoid"),
        ("can I give it a double dose of feed", "No: more than the label says", "feed", "avoid"),
        ("how much can I cut", "At most about 33 % of the foliage", "shorten", "go"),
        ("how much more may I cut off the elm this year", "At most about 10 % of the foliage", "shorten", "go"),
        ("how much root may I take off", "None now; from 14 March", "root-prune", "hold"),
        ("how many candles do I break on the pine", "Pinus sylvestris: The strong ones", "candle-shorten", "go"),
        ("last date for nitrogen", "Yes: feed it until 4 September", "feed", "go"),
        ("when can I start styling the hawthorn", "You decided not to wire it", "wire", "hold"),
        ("is it strong enough for styling", "Yes: wire it", "wire", "go"),
        ("are the pine's candles past breaking", "Nothing against it: shorten the candles", "candle-shorten", "go"),
        ("saucer full of water, empty it?", "Yes: tilt the pot so that it drains", "drain", "go"),
        ("juniper indoors ok?", "Juniperus chinensis: No: without winter cold", "shelter", "avoid"),
        ("can I keep the pine in the house", "Pinus sylvestris: No: without winter cold", "shelter", "avoid"),
        ("can the fig live in the living room", "Ficus microcarpa: Yes, through the cool", "shelter", "go"),
        ("can the olive stay inside all year", "Olea europaea: Not in a heated room", "shelter", None),
        ("wire has sunk right in, just leave it to swallow it?", "No: it comes off today", "unwire", "go"),
        ("should I let the bark grow over the wire", "No: it comes off today", "unwire", "go"),
        ("is it bad to pinch the juniper with my nails", "Juniperus chinensis: With the nails, yes", "pinch", None),
        ("I'd rather do nothing this year, is that daft", "No harm in it", "leave", "go"),
        ("is it bad to leave it alone till next spring", "No harm in it", "leave", "go"),
    ],
)
def test_work_behind_the_question_is_weighed_as_well(bench, words, opens, work, verdict):
    answer = bench.answer(words)
    assert answer.says[0].startswith(opens)
    weighed = {one.work: one.verdict for one in answer.advice.options}
    assert work in weighed and weighed[work] == (verdict or weighed[work])
    assert not [entry for entry in answer.logged if entry.work]


@pytest.mark.parametrize(
    "words",
    [
        "can I bring it indoors tonight",
        "are the inside branches weak",
        "cleaned the saw with bleach",
        "let it grow over summer",
        "feed it twice a month",
        "clear the snow away when it melts",
    ],
)
def test_what_only_sounds_like_such_a_question(bench, words):
    assert known_answer(bench, words) is None
