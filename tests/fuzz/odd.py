"""Words to make odd journals from: what is sound, and what no journal should have in it."""

from __future__ import annotations

SETTINGS = 'language = 1\nhome = "yard"\ncurrency = "EUR"\nhours_per_week = 20\n'
CARDS = """\
place yard
  latitude  52 N
place tunnel
  cover     tunnel
  within    yard
person marrow
mix maple
  akadama   2
  pumice    1
  settles   10 %
pot tray-1
  shape     rectangle
  inside    38 x 27 x 7 cm
  holes     2
material akadama
  sold in   bag of 14 L
  price     18 EUR
tree hoshi
  kind      trident maple
  place     yard
  pot       tray-1
  trunk     9 cm
  root ball 34 x 24 x 6 cm
"""
WEATHER = """\
  low       1 1 2 4 6 9 11 11 9 7 4 2 C
  high      7 7 10 13 17 20 22 22 19 15 10 8 C
  rain      80 60 60 50 50 50 60 60 60 80 90 90 mm
"""
KINDS_OF_TREE = (
    "satsuki azalea 'Kaho'",
    "Japanese black pine",
    "Chinese juniper",
    "European larch",
    "olive",
    "flowering apricot",
    "small-leaved fig",
    "no such tree",
)

NUMBERS = (
    "0",
    "-0",
    "-1",
    "1",
    "2",
    "3,5",
    "0.0001",
    "1/2",
    "1 1/2",
    "1/0",
    "0/0",
    "2-3",
    "3-2",
    "99",
    "365",
    "1000",
    "1,200",
    "1.200,50",
    "99999",
    "1e9",
    "1e999",
    "999999999999",
    "9" * 30,
    "0." + "0" * 30 + "1",
    "1:0",
    "1:10",
    "20-10-20",
    "0-0-0",
    "-40",
    "½",
    "９",
    "٣",
    "∞",
    "NaN",
    "2 g/L",
    "14:30",
    "-6 to -2 C",
    "7000000 km",
    "100 %",
    "0 %",
    "101 %",
    "-1 %",
)
UNITS = (
    "mm",
    "cm",
    "m",
    "km",
    "inch",
    '"',
    "C",
    "F",
    "°C",
    "L",
    "ml",
    "US gal",
    "kg",
    "g",
    "oz",
    "lb",
    "min",
    "h",
    "days",
    "weeks",
    "years",
    "EUR",
    "USD",
    "JPY",
    "%",
    "pH",
    "uS/cm",
    "parsec",
)
DATES = (
    "0000",
    "0001-01-01",
    "1752-09-14",
    "1800-01-01",
    "1969-12-31",
    "2027-02-29",
    "2024-02-29",
    "2026-00-00",
    "2026-13-01",
    "2026-12-32",
    "2027-05-31",
    "2027-06-01",
    "2027-06-02",
    "2028-03",
    "2028",
    "2028-21",
    "2028-24",
    "2014~",
    "2014?",
    "201X",
    "20XX-05",
    "2014-05/2015-06",
    "/2027",
    "2027/",
    "2028/2027",
    "2027-W10",
    "2027-W53-7",
    "2027-366",
    "9998-12-31",
    "9999",
    "9999-12",
    "9999-12-31",
    "9999-24",
    "10000-01-01",
    "-0044-03-15",
    "2027-6-1",
    "20270601",
    "1.6.2027",
    "2027-01-01/2027-12-31",
    "1900/2100",
    "0001/9999",
    "Y17E7",
    "２０２７-０６-０１",
)
ODD = (
    "\0",
    "\t",
    "\v",
    "\f",
    "\r",
    "\x1b[31m",
    "\x7f",
    "\x85",
    "\xa0",
    "\u200b",
    "\u200f",
    "\u202e",
    "\u2028",
    "\u2029",
    "\u2066",
    "\ufeff",
    "\ufffd",
    "\ufffe",
    "e\u0301",
    "\u0301",
    "ß",
    "İ",
    "ı",
    "ﬀ",
    "か\u3099",
    "🌲",
    "👩‍🌾",
    "🇬🇧",
    "ꙮ",
    "\U000e0041",
    "\U0010ffff",
    "<b>",
    "</script>",
    "&amp;",
    "{{ 1 }}",
    "{% raw %}",
    "%s",
    "%(a)s",
    "\\",
    "\\n",
    "$HOME",
    "..",
    "/",
    "|",
    "'",
    '"',
    "“",
    "`",
    ";",
    ":",
    ",",
    ", ",
    ",,",
    "--",
    " -- ",
    "—",
    "#",
    "[",
    "]",
    "(",
    "*",
    "?",
    "=",
    "~",
    "@",
    "^",
)
LIMITERS = ("not", "except", "only", "but", "half", "partly", "rest", "yet", "off", "all", "each")
