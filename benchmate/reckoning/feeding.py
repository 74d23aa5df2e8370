"""Feed: grams for a strength in parts per million, stock for an injector, and what the label's oxides come to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .bounds import positive, within
from .figure import Band, Beside, Figure, FigureError, plain
from .label_dose import label_dose
from .strength import strength_of

#: Element over oxide by mass, from the atomic masses P 30.974, K 39.098, O 15.999.
P_SHARE = 2 * 30.974 / (2 * 30.974 + 5 * 15.999)
K_SHARE = 2 * 39.098 / (2 * 39.098 + 15.999)
PPM_OF_OUNCE_IN_100_US_GAL = 74.8915  # 28.3495 g in 378.541 litres, in mg a litre
GRAMS_PER_OUNCE = 28.3495


def grams_per_litre(ppm: float, percent: float) -> float:
    """Grams of a feed in a litre for a strength in ppm (mg a litre) of a nutrient that is `percent` of its weight.

    >>> grams_per_litre(200, 20)
    1.0
    """
    return within("ppm", ppm) / (10 * within("nutrient_percent", percent))


def ounces_per_100_us_gallons(ppm: float, percent: float, rule_of_75: bool = True) -> float:
    """Ounces in 100 US gallons: ppm over 75 times the nutrient's share (74.89 with rule_of_75 false).

    Source: Texas A&M, nutrient calculations. Extension tables round it up by 1 to 2 %.

    >>> round(ounces_per_100_us_gallons(200, 20), 2)
    13.33
    """
    each = 75.0 if rule_of_75 else PPM_OF_OUNCE_IN_100_US_GAL
    return within("ppm", ppm) / (each * within("nutrient_percent", percent) / 100)


def ppm_of_ounces(ounces: float, percent: float) -> float:
    """Strength in ppm of that many ounces in 100 US gallons, by the rule of 75.

    >>> ppm_of_ounces(1, 15)
    11.25
    """
    return positive("ounces", ounces) * 75 * within("nutrient_percent", percent) / 100


def stock_grams_per_litre(ppm: float, percent: float, injector_ratio: float) -> float:
    """Grams in a litre of stock for an injector of 1 to `injector_ratio`.

    >>> stock_grams_per_litre(200, 20, 100)
    100.0
    """
    return grams_per_litre(ppm, percent) * within("injector_ratio", injector_ratio)


def stock_ounces_per_us_gallon(ppm: float, percent: float, injector_ratio: float) -> float:
    """Ounces in a US gallon of stock for an injector, by the rule of 75.

    >>> round(stock_ounces_per_us_gallon(200, 20, 100), 2)
    13.33
    """
    return ounces_per_100_us_gallons(ppm, percent) / 100 * within("injector_ratio", injector_ratio)


def millilitres_per_litre(ppm: float, percent: float, density_g_ml: float) -> float:
    """Millilitres of a liquid feed in a litre. density_g_ml: its density.

    >>> round(millilitres_per_litre(100, 8, 1.2), 3)
    1.042
    """
    return grams_per_litre(ppm, percent) / positive("a density", density_g_ml)


def elements_ppm(grams_a_litre: float, label: Sequence[float]) -> tuple[float, float, float]:
    """ppm of N, P and K as elements from grams a litre of a feed whose label says N, P2O5 and K2O in per cent.

    >>> [round(ppm, 1) for ppm in elements_ppm(1, (20, 20, 20))]
    [200.0, 87.3, 166.0]
    """
    n, p2o5, k2o = _label(label)
    each = 10 * positive("grams a litre", grams_a_litre)
    return each * n, each * p2o5 * P_SHARE, each * k2o * K_SHARE


def feed_dose(
    ppm: Band,
    label: Sequence[float] | None = None,
    volume_l: float = 1.0,
    nutrient: str = "N",
    injector_ratio: float | None = None,
    density_g_ml: float | None = None,
    soluble_g_l: Band | None = None,
    unit: str = "g",
    dose: float | None = None,
    per_l: float | None = None,
    strength: float = 1.0,
    given_g: float | None = None,
    of_stock: bool = False,
) -> Figure:
    """Grams of a soluble feed for a volume of water, or of stock for an injector.

    label: N, P2O5 and K2O in per cent, as printed (20, 20, 20). ppm: strength wanted of the nutrient (N, P or K, as
    the element). volume_l: of water; with injector_ratio, of stock. density_g_ml: of a liquid feed, to tell it in mL.
    soluble_g_l: how much a litre of stock dissolves. unit: "oz" for ounces. A label of one number is nitrogen alone.
    dose, per_l: what the label says in its own unit, `unit`, for so many litres, in place of a strength in ppm.
    strength: how much of that, or of the usual strength in ppm. given_g: grams that went into the volume, of which the
    strength in ppm is asked. of_stock: the value is for each litre of stock, in g/L. Raises FigureError.
    """
    if dose is not None and per_l is not None:
        return label_dose(dose, unit, per_l, volume_l, strength)
    if label is None:
        raise FigureError("a feed of unknown label cannot be reckoned; its N-P-K, as in 20-20-20, would do")
    alone = len(label) == 1
    percents = _label((*label, 0.0, 0.0) if alone else label)
    if nutrient not in ("N", "P", "K"):
        raise FigureError(f"a strength in {nutrient} cannot be reckoned; N, P or K would do")
    percent = (percents[0], percents[1] * P_SHARE, percents[2] * K_SHARE)["NPK".index(nutrient)]
    volume = within("volume_l", volume_l)
    if percent == 0:
        raise FigureError(f"a feed with no {nutrient} gives no {nutrient}; one that holds it would do")
    if given_g is not None:
        return strength_of(given_g, percents, nutrient, percent, volume)
    if strength != 1:
        part = positive("a strength", strength)
        ppm = replace(ppm, value=ppm.value * part, low=ppm.low * part, high=ppm.high * part)
    if ppm.low <= 0 or ppm.high > 2000:
        raise FigureError(f"a feed strength of {plain(ppm.value)} ppm cannot be; 1 to 2000 ppm would do")
    ratio = 1.0 if injector_ratio is None else within("injector_ratio", injector_ratio)
    value, low, high = (grams_per_litre(wanted, percent) * ratio * volume for wanted in (ppm.value, ppm.low, ppm.high))
    weak = grams_per_litre(ppm.value, percent)
    n, p, k = elements_ppm(weak, percents)
    name = f"{plain(n_percent)} % N" if alone and (n_percent := percents[0]) else "-".join(map(plain, percents))
    beside = [
        Beside("grams a litre of feed", weak, "g"),
        *(() if alone else (Beside("N", n, "ppm"), Beside("P", p, "ppm"), Beside("K", k, "ppm"))),
        Beside("ounces", value / GRAMS_PER_OUNCE, "oz"),
        Beside("ounces in 100 US gallons, rule of 75", ounces_per_100_us_gallons(ppm.value, percent), "oz"),
    ]
    notes = ["Follow the label; never feed a dry, sick or freshly root-cut tree"]
    if ppm.value > 200:
        notes.insert(0, f"{plain(ppm.value)} ppm is strong for a tree in a pot")
    if injector_ratio is not None:
        beside.append(Beside("grams a litre of stock", weak * ratio, "g"))
        ounces = stock_ounces_per_us_gallon(ppm.value, percent, ratio)
        beside.append(Beside("ounces a US gallon of stock", ounces, "oz"))
        if soluble_g_l is not None and weak * ratio > soluble_g_l.low:
            notes.insert(0, f"{plain(weak * ratio)} g a litre may not dissolve; about {plain(soluble_g_l.low)} g does")
    each = GRAMS_PER_OUNCE if unit == "oz" else 1.0
    if density_g_ml is not None and unit == "mL":
        each = positive("a density", density_g_ml)
        beside.append(Beside("by weight", value, "g"))
    elif density_g_ml is not None:
        beside.append(Beside("as liquid", value / positive("a density", density_g_ml), "mL"))
    unit = "g/L" if of_stock and unit == "g" else unit
    water = "stock" if injector_ratio is not None else "water"
    told = f"{plain(ppm.value)} / (10 x {plain(percent)} %) = {plain(weak)} g a litre"
    told += f" x {plain(ratio)}" if injector_ratio is not None else ""
    return Figure(
        "feed-dose",
        value / each,
        unit,
        low / each,
        high / each,
        f"for {plain(ppm.value)} ppm {nutrient} from {name}: {told} x {plain(volume)} L of {water} = {plain(value)} g"
        + (f" or {plain(value / each)} {unit}" if unit in ("oz", "mL") else ""),
        "1 ppm is 1 mg a litre; label by weight" + ("" if ppm.said else f"; strength: {ppm.source}"),
        "practice" if not ppm.said else "published",
        "Soluble feed, label per cent by weight; what the tap water already holds comes on top.",
        tuple(notes),
        tuple(beside),
    )


def _label(label: Sequence[float]) -> tuple[float, float, float]:
    """N, P2O5, K2O in per cent, each 0 to 60 and together no more than 100."""
    if len(label) != 3:
        raise FigureError(f"a label of {len(label)} numbers cannot be read; three, as in 20-20-20, would do")
    n, p, k = (0.0 if part == 0 else within("nutrient_percent", part) for part in label)
    if n + p + k > 100:
        raise FigureError(f"a label of {plain(n)}-{plain(p)}-{plain(k)} holds over 100 %; the three printed would do")
    return n, p, k
