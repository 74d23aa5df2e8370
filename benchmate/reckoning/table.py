"""The figures of the vocabulary: what each one needs and what works it out."""

from __future__ import annotations

from dataclasses import replace

from .ask import FigureSpec, Need, late

_ON = Need("on", "date", required=True, question="Which day is meant?")
_LATITUDE = Need("latitude_deg", "degrees", required=True, question="At what latitude does it stand, south negative?")
_SPECIES = Need("species")
_FIRST_FROST = Need(
    "first_frost", "month and day", none_says=True, question="When is the mean first autumn frost there?"
)
_LAST_FROST = Need("last_frost", "month and day")
_SPREAD = Need("spread_days", "days", rules="frost-spread-days")
_WOODS = Need("woods", rules="wood", row="wood:Wood")
_METALS = Need("metals", rules="metal", row="wire:Metal", required=True)
_LIVE = Need("live_gpa", "GPa", rules="live-stiffness-gpa", required=True)
_THIRD = Need("third", "1", rules="wire-third", required=True)
_BRANCH = Need("diameter_mm", "mm", required=True, question="How thick is the branch, in mm?")

_WATER = (
    replace(_LATITUDE, unless=("et_mm", "use_l", "loss_g")),
    _ON,
    Need(
        "temperature_c",
        "C",
        required=True,
        unless=("et_mm", "use_l", "loss_g"),
        question="How warm does the day get, in C?",
    ),
    Need("low_c", "C"),
    Need("et_mm", "mm a day"),
    Need("shape"),
    Need("night_drop_c", "C", rules="night-drop-c", required=True),
    Need("factor", "1", rules="use-over-grass", by=("species",), required=True),
    Need(
        "pot_length_mm",
        "mm",
        required=True,
        also=("length_mm",),
        unless=("spread_mm", "use_l", "loss_g"),
        question="How long and wide is the pot inside, or how wide the crown, in mm?",
    ),
    Need("pot_width_mm", "mm", also=("width_mm",)),
    Need("spread_mm", "mm"),
    Need("leaf_left", "1", default=1.0),
)

_SPECS = (
    FigureSpec(
        "wire-diameter",
        (
            _BRANCH,
            _THIRD,
            _METALS,
            _WOODS,
            _SPECIES,
            _LIVE,
            Need("sizes_mm", "mm", rules="wire-sizes-mm"),
            Need("gauges", "in", rules="swg-in"),
            Need("strands", "strands", default=1),
            Need("length_mm", "mm"),
            Need("angle_deg", "degrees"),
            Need("metal"),
        ),
        late("wiring", "wire_diameter"),
        "thickness of wire for a branch",
    ),
    FigureSpec(
        "wire-length",
        (
            Need(
                "length_mm",
                "mm",
                required=True,
                unless=("gauge", "wire_length_mm", "gauge_wanted"),
                question="How long is the branch to be wired, in mm?",
            ),
            Need("angle_deg", "degrees", rules="coil-angle-deg", required=True),
            Need("spare", "1", rules="wire-spare", required=True),
            _METALS,
            Need("diameter_mm", "mm"),
            Need("wire_mm", "mm"),
            _THIRD,
            Need("wire_length_mm", "mm"),
            Need("metal"),
            Need("gauge"),
            Need(
                "gauge_kind", required=True, where=("gauge",), question="Is that American gauge (AWG) or British (SWG)?"
            ),
            Need("gauges", "in", rules="swg-in"),
            Need("turn_mm", "mm"),
        ),
        late("wiring", "wire_length"),
        "length and weight of wire for a branch",
    ),
    FigureSpec(
        "bend-limit",
        (
            _BRANCH,
            _WOODS,
            _LIVE,
            Need("scale", "1", rules="bend-scale", required=True),
            _SPECIES,
            Need("length_mm", "mm"),
            Need("angle_deg", "degrees"),
        ),
        late("bending", "bend_limit"),
        "how far a branch bends",
    ),
    FigureSpec(
        "guy-pull",
        (
            Need(
                "angle_deg",
                "degrees",
                required=True,
                unless=("move_mm",),
                question="At what angle does the guy meet the branch, in degrees?",
            ),
            _LIVE,
            Need("pad_limit_mpa", "MPa", rules="pad-limit-mpa"),
            Need("force_n", "N"),
            Need("diameter_mm", "mm"),
            Need("length_mm", "mm"),
            Need("move_mm", "mm"),
            Need("pad_mm", "mm", default=10.0),
        ),
        late("guying", "guy_pull"),
        "tension in a guy",
    ),
    FigureSpec(
        "bite-date",
        (
            _ON,
            Need("yearly_mm", "mm a year", rules="yearly-growth-mm", by=("health",), required=True),
            Need("tolerated_mm", "mm", rules="tolerated-bite-mm", required=True),
            Need("season_start", "day of year", rules="season-start-day", by=("species",), required=True),
            Need("season_end", "day of year", rules="season-end-day", by=("species",), required=True),
            Need("gap_mm", "mm"),
            Need("wired_on", "date"),
            _LAST_FROST,
            _FIRST_FROST,
            Need("latitude_deg", "degrees"),
            Need("stage_share", "1", rules="stage-growth-share", by=("stage",)),
            _SPECIES,
            Need("tender", rules="tender-genera"),
            Need("pace", "1", rules="growth-pace", by=("species",)),
            Need("check_fast_days", "days", default=7),
            Need("check_slow_days", "days", default=21),
        ),
        late("bite", "bite_date"),
        "when wire begins to bite",
    ),
    FigureSpec(
        "leaf-share",
        (
            Need(
                "leaves_cut",
                "leaves",
                also=("leaves",),
                required=True,
                unless=("share", "taken", "leaves_left", "leaves_halved", "branches_mm"),
                question="How many leaves were cut, of how many?",
            ),
            Need(
                "leaves_total",
                "leaves",
                required=True,
                unless=("share", "taken", "branches_mm"),
                question="How many leaves does it carry in all?",
            ),
            Need("leaves_left", "leaves"),
            Need("share", "1"),
            Need("taken", "shares"),
            Need("halving", "1", rules="halved-blade-share", by=("species",)),
            Need("leaves_halved", "leaves"),
            Need("branches_mm", "mm"),
            Need("lost_mm", "mm"),
            Need("exponent", "1", rules="branching-exponent"),
        ),
        late("leaf", "leaf_share"),
        "share of the leaf taken",
    ),
    FigureSpec(
        "taper",
        (
            Need(
                "base_mm",
                "mm",
                also=("diameter_mm",),
                required=True,
                question="How thick is the trunk at its base, in mm?",
            ),
            Need("height_mm", "mm", required=True, unless=("length_mm",), question="How tall is the tree, in mm?"),
            Need("stout", ":1", rules="height-over-base", required=True),
            Need("upper_mm", "mm"),
            Need("length_mm", "mm"),
            Need("measured"),
        ),
        late("proportion", "taper"),
        "taper of the trunk",
    ),
    FigureSpec(
        "union-ratio",
        (
            Need("diameters_mm", "mm", required=True, question="How thick are the two stems at the fork, in mm?"),
            Need("steps", "1", rules="union-step", required=True),
        ),
        late("proportion", "union_ratio"),
        "ratio of the two stems at a fork",
    ),
    FigureSpec(
        "pipe-sum",
        (
            Need("diameters_mm", "mm", required=True, question="How thick are the branches, each in mm?"),
            Need("exponent", "1", rules="branching-exponent", required=True),
            Need("parent_mm", "mm"),
            Need("grown_mm", "mm"),
            Need("wanted", default="parent"),
        ),
        late("proportion", "pipe_sum"),
        "stem that branches add up to",
    ),
    FigureSpec(
        "day-length",
        (
            _LATITUDE,
            _ON,
            Need("longitude_deg", "degrees", default=0.0),
            Need("hours", "h"),
            Need("wanted", default="hours"),
        ),
        late("daylight", "day_length_figure"),
        "length of the day",
    ),
    FigureSpec(
        "degree-days",
        (
            Need(
                "temperatures",
                "C",
                required=True,
                question="What were the lowest and highest temperatures, day by day, in C?",
            ),
            Need("base_c", "C", rules="degree-day-base-c", by=("species",), also=("temperature_c",), required=True),
            Need("upper_c", "C"),
            Need("method", default="single-sine"),
        ),
        late("heat", "degree_days"),
        "degree-days so far",
    ),
    FigureSpec(
        "frost-margin",
        (
            _ON,
            Need(
                "first_frost",
                "month and day",
                required=True,
                none_says=True,
                question="When is the mean first autumn frost there?",
            ),
            _SPREAD,
            _LAST_FROST,
            Need("risk", "1", default=0.1),
            Need("needed_days", "days", also=("days",)),
            Need("which", default="first"),
            Need("wanted", default="days"),
        ),
        late("frost", "frost_margin"),
        "days left before frost",
    ),
    FigureSpec(
        "regrowth-date",
        (
            _ON,
            Need("releaf_days", "days", rules="releaf-days", by=("species",), required=True),
            Need("harden_days", "days", rules="harden-days", by=("species",), required=True),
            _FIRST_FROST,
            _SPREAD,
            _LAST_FROST,
            Need("cut_on", "date"),
            _SPECIES,
            Need("single_flush", rules="single-flush-genera"),
            Need("risk", "1", default=0.1),
        ),
        late("regrowth", "regrowth_date"),
        "when new leaf is out and firm",
    ),
    FigureSpec(
        "feed-dose",
        (
            Need("label", "%", required=True, question="What does the feed's label say: N-P-K, as in 20-20-20?"),
            Need("ppm", "ppm", rules="feed-ppm", by=("health",), required=True),
            Need("volume_l", "L", default=1.0),
            Need("nutrient", default="N"),
            Need("injector_ratio", "1"),
            Need("density_g_ml", "g/mL"),
            Need("soluble_g_l", "g/L", rules="feed-dissolves-g-l"),
            Need("unit", default="g"),
        ),
        late("feeding", "feed_dose"),
        "grams of feed",
    ),
    FigureSpec(
        "water-need",
        (*_WATER, Need("leached", "1", rules="leached-share", required=True)),
        late("watering", "water_need"),
        "litres of water a day",
    ),
    FigureSpec(
        "days-to-dry",
        (
            *_WATER,
            Need("available", "1", rules="available-water-share", required=True),
            Need(
                "volume_l",
                "L",
                required=True,
                unless=("pot_depth_mm", "depth_mm", "held_l", "limit_g"),
                question="How much does the pot hold, in litres, or how deep is it?",
            ),
            Need("pot_depth_mm", "mm", also=("depth_mm",)),
            Need("use_l", "L a day"),
            Need("held_l", "L"),
            Need("wet_g", "g"),
            Need("limit_g", "g"),
            Need("loss_g", "g a day"),
        ),
        late("watering", "days_to_dry"),
        "days until the pot is dry",
    ),
    FigureSpec(
        "pot-size",
        (
            Need("share_of_height", "1", rules="pot-length-share", required=True),
            Need("depth_of_base", "1", rules="pot-depth-share", required=True),
            Need("width_of_length", "1", rules="pot-width-share", required=True),
            Need("height_over_base", ":1", rules="height-over-base", required=True),
            Need(
                "height_mm",
                "mm",
                required=True,
                unless=("diameter_mm", "base_mm", "spread_mm"),
                question="How tall is the tree, or how thick its trunk, in mm?",
            ),
            Need("diameter_mm", "mm", also=("base_mm",)),
            Need("spread_mm", "mm", also=("width_mm",)),
        ),
        late("pots", "pot_size"),
        "size of pot for a tree",
    ),
    FigureSpec(
        "pot-volume",
        (
            Need(
                "length_mm",
                "mm",
                also=("pot_length_mm",),
                required=True,
                unless=("diameter_mm",),
                question="How long, wide and deep is the pot inside, in mm?",
            ),
            Need("width_mm", "mm", also=("pot_width_mm",)),
            Need(
                "depth_mm", "mm", also=("pot_depth_mm",), required=True, question="How deep is the pot inside, in mm?"
            ),
            Need("shape"),
            Need("diameter_mm", "mm"),
            Need("wall_mm", "mm", default=0.0),
            Need("settling", "1", rules="mix-settling", required=True),
            Need("bottom_mm", "mm"),
        ),
        late("pots", "pot_volume"),
        "litres a pot holds",
    ),
    FigureSpec(
        "growth-forecast",
        (
            Need("readings", "mm", required=True, unless=("yearly_mm",), question="What was measured on it, and when?"),
            _ON,
            Need("days", "days", default=365),
            Need("what", default="trunk"),
            Need("now_mm", "mm", also=("size_mm",)),
            Need("yearly_mm", "mm a year"),
            Need("goal_mm", "mm"),
            Need("wanted", default="size"),
        ),
        late("forecast", "growth_forecast"),
        "size to come",
    ),
    FigureSpec(
        "dilution",
        (
            Need("volume_l", "L", default=1.0),
            Need(
                "substance",
                rules="substance",
                row="dilution:Substance",
                by=("liquid",),
                required=True,
                unless=("stock_percent", "parts", "dose_l"),
                question="What is to be diluted: bleach, alcohol?",
            ),
            Need("stock_percent", "%"),
            Need("wanted_percent", "%"),
            Need("parts", "parts of water to one"),
            Need("share", "1"),
            Need("dose_l", "L"),
            Need("per_l", "L"),
            Need("have_l", "L"),
            Need("wanted", default="stock"),
        ),
        late("dilution", "dilution"),
        "stock for a dilution",
    ),
    FigureSpec(
        "wound-close",
        (
            Need("diameter_mm", "mm", required=True, also=("width_mm",), question="How wide is the wound, in mm?"),
            Need("yearly_mm", "mm a season", rules="wound-closing-mm", by=("health",), required=True),
            Need("share_done", "1", default=0.0),
            Need("earlier_mm", "mm"),
            Need("ago_years", "years", default=1.0),
        ),
        late("wounds", "wound_close"),
        "seasons until a wound closes",
    ),
)

#: Figure of the vocabulary -> what it needs and what works it out.
FIGURES: dict[str, FigureSpec] = {spec.figure: spec for spec in _SPECS}
