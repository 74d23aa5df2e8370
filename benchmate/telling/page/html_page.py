"""The sheet as one self-contained page: no script, nothing fetched, every grower's word escaped."""

from __future__ import annotations

from collections.abc import Iterable

from benchmate.telling.dates import day_words
from benchmate.telling.measures import millimetres
from benchmate.telling.page.decisions import Decision, decisions
from benchmate.telling.page.growth import NO_GROWTH, Series, growth_words, series_of, thinned
from benchmate.telling.page.growth_chart import growth_chart
from benchmate.telling.page.markup import Html, Inside, el, joined
from benchmate.telling.page.minding import NO_SPECIES, caution_rows
from benchmate.telling.page.sheet import Sheet
from benchmate.telling.page.spent import HOW, last_seasons, season_runs, spent_words, top_of
from benchmate.telling.page.spent_chart import scale_head, spent_bars, spent_legend
from benchmate.telling.page.style import STYLE
from benchmate.telling.page.waiting import waiting_words
from benchmate.telling.page.who import kind_words, name_words, who_rows
from benchmate.telling.page.years import YearRow, year_rows
from benchmate.telling.page.years_strip import lanes_of, legend, month_heads, year_strip

CARE = (
    "Advice is from general practice; labels and local rules prevail, and a qualified arborist or a doctor knows more."
)
NO_ENTRIES = "Nothing is in its record yet."
_ROWS_MOST = 16
# nothing may be fetched, nothing may run: also where a browser is told otherwise
_POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"


def page_text(sheet: Sheet) -> str:
    """The whole page, ready to be saved."""
    name = name_words(sheet)
    head = el(
        "head",
        el("meta", charset="utf-8"),
        el("meta", **{"http-equiv": "Content-Security-Policy", "content": _POLICY}),
        el("meta", name="viewport", content="width=device-width, initial-scale=1"),
        el("title", f"{name}: tree sheet, {day_words(sheet.on)}"),
        el("style", Html(STYLE)),
    )
    parts = [
        _who(sheet, name),
        _waiting(sheet),
        _decided(sheet),
        _years(sheet),
        _growth(sheet),
        _spent(sheet),
        _taught(sheet),
        _minding(sheet),
    ]
    body = el("body", el("main", *parts), _foot(sheet))
    return f"<!DOCTYPE html>\n{el('html', head, body, lang='en').text}\n"


def _section(id: str, title: str, *inside: Inside, whole: bool = False) -> Html:
    heading = el("h2", title, id=id)
    return el("section", heading, *inside, aria_labelledby=id, class_="whole" if whole else None)


def _aside(words: str) -> Html:
    return el("p", words, class_="aside")


def _who(sheet: Sheet, name: str) -> Html:
    rows = [row for row in who_rows(sheet) if row[0] != "Kind"]
    pairs = [el("div", el("dt", term), el("dd", said)) for term, said in rows]
    return el("header", el("h1", name), el("p", kind_words(sheet), class_="kind"), el("dl", *pairs, class_="who"))


def _waiting(sheet: Sheet) -> Html:
    told, remarks = waiting_words(sheet)
    listed = [el("ul", *(el("li", words) for words in told))] if told else []
    return _section("waiting", "To come back for", *listed, *map(_aside, remarks))


def _decided(sheet: Sheet) -> Html:
    told, before = decisions(sheet)
    if not told:
        return _section("decided", "Last decisions", el("p", "None in the record yet."))
    more = [_aside(f"{before} earlier stand in the record.")] if before else []
    listed = el("ol", *map(_decision, told), class_="decisions")
    return _section("decided", "Last decisions", listed, *more)


def _decision(one: Decision) -> Html:
    rows = [el("p", el("strong", one.day), ": ", one.what)]
    if one.said:
        rows.append(el("p", "Said: ", el("q", el("bdi", one.said)), class_="aside"))
    if one.reason:
        rows.append(el("p", "Reason: ", el("bdi", one.reason)))
    if one.refused:
        rows.append(el("p", "Not taken: ", "; ".join(one.refused), "."))
    return el("li", *rows)


def _years(sheet: Sheet) -> Html:
    rows = year_rows(sheet)
    if not rows:
        return _section("years", "Its line of years", el("p", NO_ENTRIES))
    lanes = lanes_of(rows)
    head = el("thead", el("tr", el("th", "Year", scope="col"), el("th", "What was done", month_heads(), scope="col")))
    body = el("tbody", *(_year(row, lanes) for row in rows))
    return _section("years", "Its line of years", legend(lanes), el("table", head, body))


def _year(row: YearRow, lanes: list[str]) -> Html:
    cell: list[Inside] = [el("div", row.told, class_=None if row.words else "quiet")]
    if row.marks:
        cell.insert(0, year_strip(row, lanes))
    return el("tr", el("th", row.label, scope="row"), el("td", el("div", *cell, class_="beside")))


def _growth(sheet: Sheet) -> Html:
    found = series_of(sheet.entries)
    if not found:
        return _section("growth", "Growth", el("p", NO_GROWTH))
    return _section("growth", "Growth", *(part for series in found for part in _one_growth(series, sheet.units)))


def _one_growth(series: Series, units: str) -> Iterable[Html]:
    told = el("p", el("strong", series.name), growth_words(series, units).removeprefix(series.name))
    if not series.has_line:
        yield told
        return
    kept = thinned(series.points, _ROWS_MOST)
    rows = [el("tr", el("th", day_words(one.day), scope="row"), el("td", millimetres(one.mm, units))) for one in kept]
    less = "" if len(kept) == len(series.points) else f", the last of each year of {len(series.points)}"
    head = el("thead", el("tr", el("th", "Day", scope="col"), el("th", series.name, scope="col")))
    table = el("table", el("caption", f"The measurements{less}"), head, el("tbody", *rows), class_="sizes")
    beside = el("div", growth_chart(series, units), el("div", table), class_="beside")
    yield el("div", told, beside, class_="whole")


def _spent(sheet: Sheet) -> Html:
    seasons, before = last_seasons(sheet.seasons)
    if not seasons:
        return _section("spent", "What the seasons cost", el("p", NO_ENTRIES))
    top = top_of(seasons)
    rows = []
    for number, (label, season) in enumerate(season_runs(seasons)):
        told = el("div", spent_words(season), class_="quiet" if season.silent else None)
        bars = [] if season.silent else [spent_bars(season, top, number)]
        rows.append(el("tr", el("th", label, scope="row"), el("td", el("div", *bars, told, class_="beside"))))
    head = el("thead", el("tr", el("th", "Season", scope="col"), el("th", "Share taken", scale_head(top), scope="col")))
    more = [_aside(f"{before} earlier seasons are not shown.")] if before else []
    table = el("table", head, el("tbody", *rows))
    return _section("spent", "What the seasons cost", spent_legend(), table, *more, _aside(HOW))


def _taught(sheet: Sheet) -> Html:
    if not sheet.lessons:
        return joined([])
    return _section("taught", "What it has taught", el("ul", *(el("li", one) for one in sheet.lessons)))


def _minding(sheet: Sheet) -> Html:
    if not sheet.tree.species:
        return _section("minding", "To mind with its kind", el("p", NO_SPECIES))
    rows = caution_rows(sheet)
    if not rows:
        return _section("minding", "To mind with its kind", el("p", "No caution special to its kind is in the rules."))
    items = [el("li", said, " ", el("span", f"({rests})", class_="aside")) for said, rests in rows]
    return _section("minding", "To mind with its kind", el("ul", *items))


def _foot(sheet: Sheet) -> Html:
    return el("footer", _aside(f"Made of the garden's files as of {day_words(sheet.on)}. {CARE}"))
