"""Water for a pot: litres that a day draws, and days until the pot is dry."""

from __future__ import annotations

import datetime as dt
import math

from .bounds import day, positive, within
from .drying import dry_by_use, dry_by_weight
from .evaporation import hargreaves_mm
from .figure import Band, Beside, Figure, FigureError, plain, weakest
from .pots import volume_l as pot_litres
from .sun import sunshine_outside_mj

FAO = "Allen et al. 1998, FAO-56, eq. 52"


def litres_a_day(et_mm: float, factor: float, area_m2: float, leached_share: float = 0.0) -> float:
    """Litres a day: 1 mm on 1 m2 is 1 litre. leached_share: of what is poured that runs out below, 0 to 0.9.

    >>> round(litres_a_day(5, 1, math.pi / 4 * 0.4 ** 2, 0.15), 3)
    0.739
    """
    leached = within("share", leached_share)
    if leached > 0.9:
        raise FigureError(f"a leached share of {plain(leached)} cannot be; 0 to 0.9 would do")
    return et_mm * factor * positive("an area", area_m2) / (1 - leached)


def days_held(volume_l: float, available_share: float, litres: float) -> float:
    """Days for which a pot's volume (litres), of which a share is water that roots can take, lasts at litres a day.

    >>> round(days_held(2.38, 0.3, 0.236), 2)
    3.03
    """
    return positive("a pot", volume_l) * within("share", available_share) / positive("a use of water", litres)


def water_need(
    on: dt.date,
    night_drop_c: Band,
    factor: Band,
    leached: Band,
    latitude_deg: float | None = None,
    temperature_c: float | None = None,
    low_c: float | None = None,
    pot_length_mm: float | None = None,
    pot_width_mm: float | None = None,
    spread_mm: float | None = None,
    leaf_left: float = 1.0,
    et_mm: float | None = None,
    shape: str | None = None,
    days: float | None = None,
    usual_c: Band | None = None,
) -> Figure:
    """Litres of water a day for a tree in a pot, by Hargreaves from the day's temperatures and the latitude.

    temperature_c: the day's maximum; low_c: its minimum, else lower by night_drop_c. factor: use over short grass.
    The area is the crown's (spread_mm across) or the pot's top (oval of pot_length_mm by pot_width_mm unless `shape` is
    a rectangle), the larger one known. leached: share that runs out. leaf_left: 0 to 1 after leaf was taken. et_mm:
    the day's reference evapotranspiration where it was told, in place of the temperatures. days: for so many such days
    together, 1 to 366; usual_c: their highest temperature where none is told. Raises FigureError.
    """
    usual = et_mm is None and temperature_c is None and days is not None and usual_c is not None
    if usual and usual_c is not None:
        temperature_c = usual_c.value
    et, told = _drawn(latitude_deg, on, temperature_c, low_c, night_drop_c, et_mm)
    area, of_what = _area_m2(pot_length_mm, pot_width_mm, spread_mm, shape)
    # Bare soil still dries: a leafless pot is taken to use a quarter.
    leafy = 0.25 + 0.75 * within("share", leaf_left)
    value, low, high = (
        litres_a_day(et, share * leafy, area, leached.value) for share in (factor.value, factor.low, factor.high)
    )
    notes = ["Water when the top is drying, not by the clock; weigh the pot once to correct this"]
    if temperature_c is not None and temperature_c >= 32:
        notes.insert(0, "In such heat look twice a day and shade the pot")
    if leaf_left < 1:
        notes.append(f"Counts the leaf left, {plain(100 * leaf_left)} %")
    how = (
        f"{told} draws {plain(et)} mm; {plain(et)} x {plain(factor.value)}"
        + (f" x {plain(leafy)} for the leaf left" if leaf_left < 1 else "")
        + f" on {plain(area)} m2 of {of_what} / (1 - {plain(leached.value)}) = {plain(value)} L"
    )
    beside = [Beside("reference evapotranspiration", et, "mm a day"), Beside("area", area, "m2")]
    if usual and usual_c is not None:
        notes.insert(0, f"Taken for {usual_c.says}; say how warm it will be for a better figure")
    span = 1.0 if days is None else within("days", days)
    if days is not None:
        beside.insert(0, Beside("water a day", value, "L a day"))
        how += f" a day, {plain(value * span)} L in {plain(span)} days"
    return Figure(
        "water-need",
        value * span,
        "L a day" if days is None else "L",
        low * span,
        high * span,
        how,
        f"{FAO}; use of potted plants: {factor.source}",
        weakest("published", factor.mark, night_drop_c.mark if low_c is None and et_mm is None else "published"),
        "A first guess: wind, sun on the pot and species change it by more than half either way.",
        tuple(notes),
        tuple(beside),
    )


def days_to_dry(
    on: dt.date,
    night_drop_c: Band,
    factor: Band,
    available: Band,
    latitude_deg: float | None = None,
    temperature_c: float | None = None,
    volume_l: float | None = None,
    low_c: float | None = None,
    pot_length_mm: float | None = None,
    pot_width_mm: float | None = None,
    pot_depth_mm: float | None = None,
    spread_mm: float | None = None,
    leaf_left: float = 1.0,
    et_mm: float | None = None,
    shape: str | None = None,
    use_l: float | None = None,
    held_l: float | None = None,
    wet_g: float | None = None,
    limit_g: float | None = None,
    loss_g: float | None = None,
) -> Figure:
    """Days until a well-watered pot has given the water that roots can take.

    volume_l, or the pot's inside measures in mm. available: share of the volume that is such water. The rest as in
    `water_need`, nothing running out below. use_l: litres a day where that is known, held_l: litres that roots can
    take; or by the scales, soaked weight wet_g, lowest weight limit_g and a day's loss_g, in g. Raises FigureError.
    """
    if wet_g is not None and limit_g is not None and loss_g is not None:
        return dry_by_weight(wet_g, limit_g, loss_g)
    if use_l is None and loss_g is not None:
        use_l = loss_g / 1000
    if use_l is not None and held_l is not None:
        return dry_by_use(use_l, available, held_l)
    if volume_l is None and held_l is not None:
        volume_l = held_l / available.value
    if volume_l is None:
        if pot_length_mm is None or pot_depth_mm is None:
            raise FigureError("a pot of unknown size cannot be reckoned; its litres, or length and depth, would do")
        kind = shape or ("oval" if use_l is None else "rectangle")
        volume_l = pot_litres(pot_length_mm, pot_width_mm or pot_length_mm, pot_depth_mm, kind)
    volume = within("volume_l", volume_l)
    if use_l is not None:
        return dry_by_use(use_l, available, volume_l=volume)
    if pot_length_mm is None and spread_mm is None:
        raise FigureError(
            "a pot of unknown width cannot be reckoned; its length and width, or the crown's spread, would do"
        )
    et, told = _drawn(latitude_deg, on, temperature_c, low_c, night_drop_c, et_mm)
    area, of_what = _area_m2(pot_length_mm, pot_width_mm, spread_mm, shape)
    leafy = 0.25 + 0.75 * within("share", leaf_left)
    if et <= 0:
        raise FigureError("at that temperature nothing dries; a warmer day would do")
    used = litres_a_day(et, factor.value * leafy, area)
    value = days_held(volume, available.value, used)
    low = days_held(volume, available.low, litres_a_day(et, factor.high * leafy, area))
    high = days_held(volume, available.high, litres_a_day(et, factor.low * leafy, area))
    notes = [
        "Check by weight or with a finger well before that; a dry ball is soaked whole, not sprinkled",
        "In full leaf and warm weather the usual pot can be empty in one to two days (Rutgers FS812)",
    ]
    if value < 1:
        notes.insert(0, "It will not last a day: water more than once, or shade it")
    return Figure(
        "days-to-dry",
        value,
        "days",
        low,
        high,
        f"{plain(volume)} L holds {plain(100 * available.value)} % = {plain(volume * available.value)} L for roots; "
        f"{told} takes {plain(used)} L a day from {plain(area)} m2 of {of_what}: {plain(value)} days",
        f"{FAO}; water held: {available.source}",
        weakest(factor.mark, available.mark, night_drop_c.mark if low_c is None else "published"),
        "A first guess for a pot watered through; a full root ball or coarse mix holds less.",
        tuple(notes),
        (
            Beside("water that roots can take", volume * available.value, "L"),
            Beside("use", used, "L a day"),
            Beside("reference evapotranspiration", et, "mm a day"),
        ),
    )


def _drawn(
    latitude_deg: float | None,
    on: dt.date,
    temperature_c: float | None,
    low_c: float | None,
    night_drop_c: Band,
    et_mm: float | None,
) -> tuple[float, str]:
    """Reference evapotranspiration (mm) of a day, and the day in words."""
    if et_mm is not None:
        if not 0 <= et_mm <= 20:
            raise FigureError(f"an evaporation of {plain(et_mm)} mm a day cannot be; 0 to 20 mm would do")
        return et_mm, "as told, the air"
    if latitude_deg is None or temperature_c is None:
        raise FigureError("a day of unknown warmth draws no known water; its highest temperature would do")
    high = within("temperature_c", temperature_c)
    low = high - night_drop_c.value if low_c is None else within("temperature_c", low_c)
    today = day("a day", on)
    outside = sunshine_outside_mj(latitude_deg, today.timetuple().tm_yday)
    assumed = " (assumed)" if low_c is None else ""
    return hargreaves_mm(low, high, outside), (
        f"a day of {plain(low)}{assumed} to {plain(high)} C at {plain(abs(latitude_deg))} degrees "
        f"{'south' if latitude_deg < 0 else 'north'} on {today.isoformat()}"
    )


def _area_m2(
    length_mm: float | None, width_mm: float | None, spread_mm: float | None, shape: str | None = None
) -> tuple[float, str]:
    """The larger of the crown's and the pot's area in m2, and which it is."""
    areas: list[tuple[float, str]] = []
    if spread_mm is not None:
        areas.append((math.pi / 4 * within("spread_mm", spread_mm) ** 2 / 1e6, "crown"))
    if length_mm is not None:
        length = within("pot_mm", length_mm)
        width = length if width_mm is None else within("pot_mm", width_mm)
        share = 1.0 if shape == "rectangle" else math.pi / 4
        areas.append((share * length * width / 1e6, "pot"))
    if not areas:
        raise FigureError("a tree of unknown spread cannot be reckoned; the crown's or the pot's width would do")
    return max(areas)
