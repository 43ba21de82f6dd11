"""The page of the weather: drawings that read well, and tables with the figures that are drawn.

The days are Seattle's of 2012 to 2015, the `seattle_weather` series of `vega_datasets` (NOAA).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from typing import Any
from xml.etree import ElementTree

import pytest
from vega_datasets import data

from backbud.pages import Nursery, render_pages
from backbud.pages.amounts import half_gone, litres
from backbud.pages.drawings.axes import HEIGHT, PLOT_HEIGHT, TOP, axes_for, tick
from backbud.pages.templating import TEMPLATES
from backbud.session import Session
from backbud.views.skies import weather_of

Written = Callable[..., Session]
Pages = dict[str, bytes]

CARDS = """\
place yard
  name       the yard
  latitude   {latitude}
  weather    days.csv

place glass
  within     yard
  cover      unheated glass

place shelf
  within     yard

pot tray
  shape      rectangle
  inside     40 x 25 x 10 cm

tree hoshi
  kind       Japanese black pine
  place      yard
  pot        tray
  spread     50 cm

tree fen
  kind       trident maple
  place      yard
"""
SETTINGS = 'home = "yard"\n'


def seattle(until: date, shifted_days: int = 0) -> str:
    """The series as a weather file; for the south its days are moved by half a year."""
    rows = ["date,low,high,rain"]
    for row in data.seattle_weather().itertuples():
        day = row.date.date() + timedelta(days=shifted_days)
        if day <= until:
            rows.append(f"{day},{row.temp_min},{row.temp_max},{row.precipitation}")
    return "\n".join(rows) + "\n"


def pages_of(session: Session) -> Pages:
    plan = session.plan()
    weather = weather_of(
        session.journal, plan.trees.values(), plan.species, session.weather, session.today
    )
    return render_pages(
        Nursery(
            "A test",
            session.today,
            "the yard",
            tuple(plan.trees.values()),
            plan.follow_ups,
            session.names(),
            weather=weather,
        )
    )


@pytest.fixture
def north(written: Written) -> Pages:
    files = {"days.csv": seattle(date(2015, 6, 20))}
    text = CARDS.format(latitude="47.6")
    return pages_of(written(text, "2015-06-20", settings=SETTINGS, files=files))


def drawings(page: bytes) -> dict[str, ElementTree.Element]:
    """Every drawing of a page by the id of its title; what is not well-formed raises."""
    found = re.findall(
        r'<svg class="drawing(?: frosted)?".*?</desc>.*?</svg>(?=\n</figure>)', page.decode(), re.S
    )
    assert len(found) == page.count(b'<svg class="drawing')
    out = {}
    for text in found:
        root = ElementTree.fromstring(text)
        out[root[0].attrib["id"].removesuffix("-title")] = root
    return out


def table_under(page: bytes, ident: str) -> list[list[str]]:
    """The rows, heads first, of the table that follows a drawing."""
    after = page.decode().split(f'id="{ident}-title"')[1]
    table = re.search(r"<table.*?</table>", after, re.S)
    assert table is not None
    return [
        [
            re.sub(r"<.*?>", "", cell).replace("−", "-")
            for cell in re.findall(r"<t[hd].*?</t[hd]>", row)
        ]
        for row in re.findall(r"<tr.*?</tr>", table[0], re.S)
    ]


def marks(root: ElementTree.Element, mark: str) -> list[dict[str, str]]:
    return [one.attrib for one in root.iter() if one.attrib.get("class") == mark]


def value_at(root: ElementTree.Element) -> Callable[[float], float]:
    """What a height stands for, told from the first and last figure of the axis."""
    ticks = [
        (float(one.attrib["y"]) - 4, float((one.text or "").replace("−", "-")))
        for one in root
        if one.attrib.get("class") == "tick"
    ]
    (y0, v0), (y1, v1) = ticks[0], ticks[-1]
    return lambda y: v0 + (y - y0) * (v1 - v0) / (y1 - y0)


HOME = ("sky-0-air", "sky-0-heat", "sky-0-chill", "sky-0-frost", "water")


def test_every_drawing_is_named_told_and_has_axes(north: Pages) -> None:
    found = drawings(north["weather.html"])
    assert {*HOME, "sky-1-air", "sky-1-heat", "sky-1-chill"} == set(found)
    units = {"sky-0-air": "°C", "sky-0-heat": "degree-days over 5 °C",
             "sky-0-chill": "chill portions",
             "water": "litres a week"}  # fmt: skip
    for ident, root in found.items():
        assert root.attrib["role"] == "img"
        assert root[0].attrib["id"] == root.attrib["aria-labelledby"]
        assert root[1].attrib["id"] == root.attrib["aria-describedby"]
        assert (root[0].tag, root[1].tag) == ("title", "desc")
        assert root[0].text and root[1].text and len(root[1].text) > 30
        texts = {one.attrib["class"].split()[0]: one.text for one in root.iter("text")}
        if ident == "sky-0-frost":
            assert texts["letters"] == "JASONDJFMAMJ"
            continue
        assert {"unit", "tick", "month"} <= set(texts)
        if ident in units:
            assert texts["unit"] == units[ident]
    months = [one.text or "" for one in found["sky-0-air"].iter("text")
              if one.attrib["class"].startswith("month")]  # fmt: skip
    assert " ".join(months) == "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec"


def test_nothing_asks_for_anything_outside(north: Pages) -> None:
    page = north["weather.html"].decode()
    assert "<script" not in page and "http" not in page and "url(" not in page
    assert not re.search(r'\son\w+="', page)
    assert "style=" not in page


def test_the_line_of_temperature_is_the_figures_of_the_table(north: Pages) -> None:
    page = north["weather.html"]
    root = drawings(page)["sky-0-air"]
    value = value_at(root)
    heads, *rows = table_under(page, "sky-0-air")
    assert heads[:3] == ["Week from", "Mean °C", "Average"]
    for mark, column in (("average", 2), ("edge", 4)):
        points = [point.split(",") for point in marks(root, mark)[0]["points"].split()]
        assert [value(float(y)) for _, y in points] == pytest.approx(
            [float(row[column]) for row in rows], abs=0.05
        )
    come, ahead = (marks(root, mark)[0]["points"].split() for mark in ("this", "ahead"))
    # 171 days of the year have come: 24 whole weeks and three days.
    assert [int(row[7]) for row in rows] == [7] * 24 + [3] + [0] * 27
    assert (len(come), len(ahead)) == (25, 28) and come[-1] == ahead[0]
    drawn = [value(float(point.split(",")[1])) for point in [*come, *ahead[1:]]]
    assert drawn == pytest.approx([float(row[1]) for row in rows], abs=0.05)
    # 1 to 7 January, as the series has it: of 2015, and of the three years before.
    days = data.seattle_weather().set_index("date")
    means = (days.temp_min + days.temp_max) / 2
    week = days["2015-01-01":"2015-01-07"]
    others = [means[f"{year}-01-01" : f"{year}-01-07"].mean() for year in (2012, 2013, 2014)]
    assert float(rows[0][1]) == pytest.approx(means["2015-01-01":"2015-01-07"].mean(), abs=0.051)
    assert [float(cell) for cell in rows[0][2:5]] == pytest.approx(
        [sum(others) / 3, min(others), max(others)], abs=0.051
    )
    assert [float(cell) for cell in rows[0][5:7]] == [week.temp_min.min(), week.temp_max.max()]


def test_heat_is_the_years_own_sum_against_the_years(north: Pages) -> None:
    page = north["weather.html"]
    root = drawings(page)["sky-0-heat"]
    value = value_at(root)
    heads, *rows = table_under(page, "sky-0-heat")
    assert heads == ["Until", "2015", "Average", "Least", "Most"]
    for mark, column in (("average", 2), ("edge", 3)):
        points = [point.split(",") for point in marks(root, mark)[0]["points"].split()]
        drawn = [value(float(y)) for _, y in points]
        assert drawn == pytest.approx([float(row[column]) for row in rows], abs=0.05 * 20)
    this = [point.split(",")[1] for mark in ("this", "ahead")
            for point in marks(root, mark)[0]["points"].split()]  # fmt: skip
    # The expected line begins where the measured one ends.
    del this[len(marks(root, "this")[0]["points"].split())]
    assert [value(float(y)) for y in this] == pytest.approx(
        [float(row[1]) for row in rows], abs=1.0
    )
    # The sum of means over 5 °C until 1 April: the sine gives a little more, never less.
    series = data.seattle_weather().set_index("date")["2015-01-01":"2015-04-01"]
    plain = ((series.temp_min + series.temp_max) / 2 - 5).clip(lower=0).sum()
    (spring,) = (row for row in rows if row[0] == "1 April")
    assert plain <= float(spring[1]) <= 1.06 * plain
    # 2015 had the warmest spring of the four.
    assert float(spring[1]) > float(spring[4])


def test_frost_is_one_dot_a_winter(north: Pages) -> None:
    """First frosts of Seattle's winters on 10, 12 and 21 November, last ones on 4 March, 9 February
    and 4 March (tests/climate/test_frost.py); the season begins on 1 July."""
    page = north["weather.html"]
    root = drawings(page)["sky-0-frost"]
    dots = [(float(one["cx"].rstrip("%")), float(one["cy"])) for one in marks(root, "dot")]
    (line,) = (float(one["y1"]) for one in marks(root, "axis"))
    days = [(round(x * 3.65), y < line) for x, y in dots]
    # 132, 134 and 143 days after 1 July; 223 and 246, twice. Two of one day stand one on the other.
    assert sorted(days) == [
        (132, True), (134, True), (143, True), (223, False), (246, False), (246, False),
    ]  # fmt: skip
    assert len(set(dots)) == 6
    heads, *rows = table_under(page, "sky-0-frost")
    assert heads == ["Winter", "First frost", "Last frost"]
    assert [row[0] for row in rows] == ["2014/15", "2013/14", "2012/13"]
    assert {row[1] for row in rows} == {"10 November", "12 November", "21 November"}
    assert root[1].text == (
        "3 winters with frost on record. The first of this winter was on 12 November 2014."
    )


def test_the_average_lies_between_the_least_and_the_most(written: Written) -> None:
    """All three are of the same winters and years: 2012/13 to 2014/15, and 2012 to 2014."""
    files = {"days.csv": seattle(date(2015, 12, 31))}
    text = CARDS.format(latitude="47.6")
    page = pages_of(written(text, "2015-12-31", settings=SETTINGS, files=files))["weather.html"]
    for ident in ("sky-0-heat", "sky-0-chill", "sky-1-chill"):
        heads, *rows = table_under(page, ident)
        assert heads[2:] == ["Average", "Least", "Most"]
        assert all(float(low) <= float(mean) <= float(most) for _, _, mean, low, most in rows)
    said = page.decode()
    assert "the average of 3 years on record" in said
    assert "the average of 3 winters on record" in said


def weather_of_the_winter(written: Written, on: str) -> tuple[str, list[str], list[list[str]]]:
    """Three winters on record and 2015/16 measured to the end of the year: the page's text, the
    heads of the winters' table, and the rows of the chill by week."""
    files = {"days.csv": seattle(date(2015, 12, 31))}
    text = CARDS.format(latitude="47.6")
    page = pages_of(written(text, on, settings=SETTINGS, files=files))["weather.html"]
    after = page.decode().split('id="sky-0-chill-title"')[1].split("of the years on record")[1]
    heads = re.findall(r"<th scope=\"col\">(.*?)</th>", after.split("</thead>")[0])
    return re.sub(r"<.*?>", "", page.decode()), heads, table_under(page, "sky-0-chill")


def test_once_a_winter_is_over_its_whole_sum_stands(written: Written) -> None:
    """On 15 April, and until the next winter is counted from 1 October on."""
    for on in ("2016-04-15", "2016-09-30"):
        said, heads, (first, *rows) = weather_of_the_winter(written, on)
        assert first[1] == "Winter 2015/16" and heads == ["Winter", "The whole winter"]
        assert rows[-1][0] == "31 March"
        whole = f"{float(rows[-1][1]):.0f} chill portions by 31 March (92 of 183 days measured,"
        assert whole in said
        assert "Chill of the winter 2015/16 at the yard" in said
        assert "are expected by" not in said.split("Chill of the winter")[0].split("Chill")[-1]
    said, heads, (first, *_) = weather_of_the_winter(written, "2016-10-01")
    assert first[1] == "Winter 2016/17" and heads == ["Winter", "By 1 October", "The whole winter"]


def test_the_rest_of_a_winter_is_expected_as_the_winters_on_record(written: Written) -> None:
    """2015/16 is measured until 31 December: from 6 January on it gains what the average does."""
    said, _, (_, *rows) = weather_of_the_winter(written, "2016-01-06")
    (now,) = (row for row in rows if row[0] == "6 January")
    for column in (1, 2):
        assert float(rows[-1][column]) > float(now[column]) + 50
    gains = [float(rows[-1][column]) - float(now[column]) for column in (1, 2)]
    assert gains[0] == pytest.approx(gains[1], abs=0.11)
    assert "are expected by 31 March 2016, the days to come as in 3 winters on record." in said
    # Nothing of it measured: it is expected as the average, between the least and the most.
    _, _, (_, *rows) = weather_of_the_winter(written, "2016-10-01")
    assert all(row[1] == row[2] for row in rows)
    assert all(float(row[3]) <= float(row[1]) <= float(row[4]) for row in rows)


def test_two_winters_make_no_least_and_most(north: Pages) -> None:
    """In June 2015 the winter of 2014/15 is not on record yet, for want of its last weeks."""
    _, *rows = table_under(north["weather.html"], "sky-0-chill")
    assert {tuple(row[3:]) for row in rows} == {("", "")}
    assert b"2 winters on record" in north["weather.html"]


def test_the_frost_table_says_what_its_drawing_does(north: Pages) -> None:
    """First frosts of Seattle's winters on 10, 12 and 21 November, last ones on 4 March, 9 February
    and 4 March (tests/climate/test_frost.py), so one in ten, five and nine had theirs by these."""
    page = north["weather.html"].decode()
    table = re.search(r'<table class="figured frosts">.*?</table>', page, re.S)
    assert table is not None
    rows = [re.findall(r"<td>(.*?)</td>", row) for row in re.findall(r"<tr>.*?</tr>", table[0])]
    assert rows[1:] == [
        ["10 November", "12 November", "21 November"],
        ["9 February", "4 March", "4 March"],
    ]
    assert "The plan goes by the winters on record once there are 5:" in page


def test_what_nobody_measured_is_not_told_as_measured(written: Written) -> None:
    """Seven days of January 2015 measured, then none: the rest is what the means lead to expect."""
    means = "  low 1 1 2 4 7 10 12 12 10 7 3 1 C\n  high 7 9 11 14 18 20 24 24 20 15 10 7 C\n"
    cards = CARDS.format(latitude="47.6").replace("  weather    days.csv\n", means)
    week = "\n".join(f"2015-01-0{n}   low 2 C, high 8 C" for n in range(1, 8))

    def told(on: str, days: str) -> str:
        pages = pages_of(written(f"{cards}\n{days}\n", on, settings=SETTINGS))
        return re.sub(r"<.*?>", "", pages["weather.html"].decode())

    text = told("2015-01-07", week)
    assert "The yard. The last seven days averaged 5.0 °C; the average year has" in text
    text = told("2015-01-09", week)
    # Five days of 5 °C and two of January's 4 °C: 33 / 7.
    assert "averaged 4.7 °C (5 days measured, 2 as expected); the average year has" in text
    assert "by 9 January (7 of 9 days measured, the rest as expected); the average year" in text
    text = told("2015-06-20", week)
    assert "Nothing was measured in the last seven days; the average year has" in text
    assert "averaged" not in text
    text = told("2015-06-20", "")
    assert "degree-days over 5 °C are expected by 20 June: nothing was measured." in text
    assert "keeps step" not in text and "so far" not in text


def test_a_place_keeps_the_capitals_of_its_name(written: Written) -> None:
    cards = CARDS.format(latitude="47.6").replace("the yard", "the yard, Betws").replace(
        "  weather    days.csv\n", ""
    )  # fmt: skip
    lows = "  low 1 1 2 4 7 10 12 12 10 7 3 1 C\n  high 7 9 11 14 18 20 24 24 20 15 10 7 C\n"
    for means, said in ((lows, "The yard, Betws"), ("", "at <bdi>the yard, Betws</bdi>")):
        text = cards.replace("  latitude   47.6\n", f"  latitude   47.6\n{means}")
        page = pages_of(written(text, "2015-06-20", settings=SETTINGS))["weather.html"].decode()
        assert said in page and "betws" not in page


def test_the_line_of_water_is_the_figures_of_the_table(north: Pages) -> None:
    page = north["weather.html"]
    root = drawings(page)["water"]
    value = value_at(root)
    heads, *rows = table_under(page, "water")
    assert heads[:2] == ["Week from", "Litres lost"]
    come, ahead = (marks(root, mark)[0]["points"].split() for mark in ("this", "ahead"))
    assert come[-1] == ahead[0]
    drawn = [value(float(point.split(",")[1])) for point in [*come, *ahead[1:]]]
    assert drawn == pytest.approx([float(row[1]) for row in rows], abs=0.02)
    text = page.decode()
    assert "An estimate to plan by: a finger in the soil decides." in text
    assert "No rain is counted on for the days ahead." in text
    # The tree with no pot is listed with what to write.
    assert re.search(r"Write down <bdi>its pot.*?fen</bdi></a>", text, re.S)


def test_it_says_where_its_figures_come_from(north: Pages) -> None:
    text = north["weather.html"].decode()
    assert "days.csv: plain CSV, 1 January 2012 to 20 June 2015, 1267 days." in text
    assert "The average year: the average of the days on record" in text
    assert "latitude 47.6, from its card" in text


def test_places_that_share_a_sky_share_a_part(north: Pages) -> None:
    text = north["weather.html"].decode()
    assert re.findall(r"<summary><h3>(.*?)</h3>", text) == ["Glass"]
    assert "Under unheated glass, which lets in about 70% of the light." in text
    assert "it raises no night for frost" in text


def test_pages_link_to_it_and_a_tree_tells_its_water(north: Pages) -> None:
    for path, base in (("index.html", ""), ("trees.html", ""), ("trees/hoshi.html", "../")):
        assert f'<a href="{base}weather.html">Sky</a>'.encode() in north[path]
    assert b'<a href="weather.html" aria-current="page">Sky</a>' in north["weather.html"]
    told = re.search(r">water</dt><dd><bdi>(.*?)</bdi>", north["trees/hoshi.html"].decode())
    assert told is not None
    assert re.fullmatch(
        r"about [\d.]+ L a day now; half of what the pot holds is gone in [\d.]+ days\. "
        r"An estimate to plan by: a finger in the soil decides\.",
        told[1],
    )
    assert "too little is known: write down its pot" in north["trees/fen.html"].decode()


def test_works_that_wait_on_the_weather_say_so(written: Written) -> None:
    files = {"days.csv": seattle(date(2015, 12, 31))}
    text = CARDS.format(latitude="47.6") + "\n2014-03-01\nfen\n  noted  buds tight\n"
    winter = pages_of(written(text, "2015-12-31", settings=SETTINGS, files=files))
    # Months ahead nearly all of it does: said once, and not at each work.
    found = winter["trees/fen.html"].decode()
    assert found.count("wait on the weather, and will move as it comes") == 1
    assert "waits on the weather" not in found
    files = {"days.csv": seattle(date(2015, 2, 20))}
    spring = pages_of(written(text, "2015-02-20", settings=SETTINGS, files=files))
    by_title = spring["trees/fen.html"].decode().split('<li class="round work ')[1:]
    waiting = [row for row in by_title if "waits on the weather" in row]
    # Those whose best day lies within the six weeks from Monday, 16 February: before 30 March.
    bests = [re.findall(r'<p class="by">best\W(\d+)\W(\w+)', row)[0] for row in waiting]
    assert bests and all(month in ("February", "March") for _, month in bests)
    assert all(int(day) < 30 for day, month in bests if month == "March")
    unknown = pages_of(written("tree fen\n  kind trident maple\n", "2015-12-31"))
    assert "on the weather" not in unknown["trees/fen.html"].decode()


def test_nothing_known_says_what_to_write(written: Written) -> None:
    page = pages_of(written("tree fen\n  kind trident maple\n", "2027-06-01"))["weather.html"]
    text = page.decode()
    assert "Nothing is known of the weather" in text
    assert "<svg" not in text
    assert "low        0 0 1 3 5 8 10 10 8 5 3 1 C" in text
    assert "months of the hemisphere" in text


def test_what_it_says_to_write_is_understood(written: Written) -> None:
    """Every example of the empty page, read as a journal, is free of problems."""
    text = pages_of(written("tree fen\n  kind trident maple\n", "2027-06-01"))["weather.html"]
    first, second, third = re.findall(r"<pre[^>]*>(.*?)</pre>", text.decode(), re.S)
    assert written(f"{first}\n\n{third}\n", "2027-06-01").weather.record_of("").means is not None
    files = {"weather.csv": "date, low, high, rain\n2027-05-01,4,12,0\n"}
    assert written(second + "\n", "2027-06-01", files=files).weather.record_of("").days


def test_a_southern_year_runs_from_july(written: Written) -> None:
    today = date(2015, 12, 30)
    files = {"days.csv": seattle(today, 183)}
    session = written(CARDS.format(latitude="-33.9"), str(today), settings=SETTINGS, files=files)
    page = pages_of(session)["weather.html"]
    found = drawings(page)
    months = [one.text or "" for one in found["sky-0-air"].iter("text")
              if one.attrib["class"].startswith("month")]  # fmt: skip
    assert " ".join(months) == "Jul Aug Sep Oct Nov Dec Jan Feb Mar Apr May Jun"
    assert found["sky-0-air"][0].text == "Temperature of 2015/16 at the yard, by week"
    (letters,) = (
        one.text for one in found["sky-0-frost"].iter("text") if one.get("class") == "letters"
    )
    assert letters == "JFMAMJJASOND"
    rows = table_under(page, "sky-0-air")[1:]
    warmest = max(rows, key=lambda row: float(row[2]))
    assert warmest[0].split()[1] in ("January", "February")


# ------------------------------------------------------------------ the parts


def test_axes_hold_round_figures() -> None:
    axes = axes_for(date(2027, 1, 1), date(2028, 1, 1), [-3.2, 27.4], "°C")
    assert (axes.low, axes.high, axes.step) == (-10, 30, 10)
    assert (axes.y(30), axes.y(-10)) == (TOP, TOP + PLOT_HEIGHT)
    assert axes.y(10) == TOP + PLOT_HEIGHT / 2
    assert HEIGHT > TOP + PLOT_HEIGHT
    assert axes.x(date(2027, 1, 1)) == 0 and axes.x(date(2027, 7, 2)) == pytest.approx(
        49.86, abs=0.01
    )
    flat = axes_for(date(2027, 1, 1), date(2027, 2, 1), [0.0, 0.0], "L", 0.0)
    assert (flat.low, flat.high) == (0, 1)
    small = axes_for(date(2027, 1, 1), date(2027, 2, 1), [0.31], "L", 0.0)
    assert (small.high, small.step) == (pytest.approx(0.4), pytest.approx(0.1))
    assert [tick(-5.0), tick(0.30000000000000004), tick(1500.0)] == ["−5", "0.3", "1500"]
    assert [tick(-0.0), tick(round(-0.04, 1)), tick(-0.04)] == ["0", "0", "−0.04"]
    with pytest.raises(ValueError, match="needs days and values"):
        axes_for(date(2027, 1, 1), date(2027, 1, 1), [1.0], "L")


def test_amounts_are_as_exact_as_an_estimate_can_be() -> None:
    assert [litres(v) for v in (0.04, 0.42, 3.52, 28.4)] == ["40 mL", "0.42 L", "3.5 L", "28 L"]
    # Never minus nought, whatever rounds to it.
    assert [litres(v) for v in (-0.0001, -0.0, -2.5)] == ["0 mL", "0 mL", "−2500 mL"]
    assert [half_gone(v) for v in (0.5, 2.52, 12.4, None)] == [
        "12 hours", "2.5 days", "12 days", "over 60 days",
    ]  # fmt: skip


def _drawn_colours() -> Iterator[tuple[str, str]]:
    css = re.sub(r"/\*.*?\*/", "", (TEMPLATES / "backbud.css").read_text("utf-8"), flags=re.S)
    for selector, block in re.findall(r"([^{}]*\.drawing[^{}]*)\{([^}]*)\}", css):
        for name, value in re.findall(r"\b(fill|stroke):\s*([^;]+)", block):
            yield f"{selector.strip()} {name}", value


def test_drawings_take_their_colours_from_the_named_ones() -> None:
    """Light, dark and forced colours all follow; faint ones carry no meaning of their own."""
    found: Any = list(_drawn_colours())
    assert len(found) > 15
    for where, value in found:
        assert re.fullmatch(r"var\(--[a-z]+\)|none|CanvasText", value), (where, value)
        if "--feint" in value or "--wash" in value:
            assert re.search(r"\.(?:grid|years|months)\b", where), where
