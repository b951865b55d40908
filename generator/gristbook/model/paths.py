"""The names in a site that are its own: its pages, its folders, and what they are dressed in."""

from __future__ import annotations

INDEX, FIND, CAUTIONS, SOURCES = "index.html", "find.html", "cautions.html", "sources.html"
POTS, TABLE = "pots.html", "table.html"
INGREDIENTS, STYLES = "ingredients/index.html", "styles/index.html"
BREWS, BREWS_CALENDAR, BREWHOUSES = "brews.html", "brews.ics", "brewhouses.html"
LEARNING, GLOSSARY = "learning/index.html", "glossary.html"
FEED, SITEMAP, ROBOTS, PDF = "feed.xml", "sitemap.xml", "robots.txt", "book.pdf"
BALANCE = "balance.svg"
CHAPTERS = "chapters"
DRESS = (
    "style.css",
    "units.js",
    "moved.js",
    "working.js",
    "day.js",
    "buy.js",
    "narrow.js",
    "find.js",
    "pots.js",
    "sort.js",
    "icon.svg",
)

BOOK_FOLDERS = frozenset({"pages", "pantry", "theme"})
"""Folders of a book that are no recipe's."""

TAKEN = BOOK_FOLDERS | {
    path.partition("/")[0].removesuffix(".html")
    for path in (
        *(INDEX, FIND, POTS, TABLE, CAUTIONS, SOURCES, INGREDIENTS, STYLES, BREWS, BREWS_CALENDAR, BREWHOUSES),
        *(LEARNING, GLOSSARY, FEED, SITEMAP, ROBOTS, BALANCE, PDF, CHAPTERS, *DRESS),
    )
}
"""What no recipe and no page of the author's can be called: its page or its folder would be another's."""
