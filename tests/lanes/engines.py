"""Which browser walks which journey, and why.

Chromium walks all of them. WebKit walks those that its engine could change: what it keeps, how it draws, when it wakes
a worker or another tab. What the app alone decides (its words, its forms, whose entry stands) is the same code in both.
"""

BROWSERS = ("chromium", "webkit")

BOTH = {
    "test_access": "every screen is laid out by the engine, and what a screen reader is told comes from it",
    "test_first_look": "a script read once more under another name, and what is drawn before it, are the engine's",
    "test_harness": "the phones themselves: what a journey asks for must mean the same in both",
    "test_installing": "manifest, icons and the content security policy are the engine's to keep",
    "test_kill": "what a killed page has written is the engine's storage",
    "test_large": "large letters and a phone on its side are laid out by the engine",
    "test_narrow": "lines are broken and texts measured by the engine",
    "test_mow": "a mow is planned and saved without signal: sheets, pickers and what is kept are the engine's",
    "test_offline": "pages opened without signal come out of the engine's worker and caches",
    "test_photos": "pictures are decoded, drawn small and kept by the engine",
    "test_provider": "what was fetched is kept by the engine for when signal goes, and pages come out of its caches",
    "test_season_plan": "a season is planned without signal by a worker of WebAssembly that the engine keeps and runs",
    "test_shopping": "a tick without signal is kept by the engine's storage and survives a reload",
    "test_rule_stop": "what stops a job outdoors must stop it on every phone, and the answer is kept by the engine",
    "test_season_sheet": "fingers, mouse and keys on a drawing, and what is kept without signal, are the engine's",
    "test_soil": "a chart is drawn on a canvas, which is the engine's, and a reading is kept by it",
    "test_storage": "storage that is full or lost is told by the engine, each in its own way",
    "test_story": "a person's whole path",
    "test_tabs": "tabs find one another by the engine's locks and channels",
    "test_tonight": "a cold start without signal comes out of the engine's worker, caches and storage",
    "test_worker": "how one worker follows another is the engine's",
}

CHROMIUM_ALONE = {
    "test_bad_input": "what a form refuses, and in which words, is the app's own",
    "test_calendar_link": "who reads by a link is the server's to say",
    "test_clash": "a clash is worked out in the book, the same in both",
    "test_clock": "dates are reckoned by the app from one clock; the page's clock is set the same way in both",
    "test_forced_colours": "WebKit has no mode of a person's own two colours",
    "test_heart": "the path of the story once more, over many passes: what is learned is the engine of the book",
    "test_household": "who may do what is the server's to say",
    "test_household_conflicts": "what met a deletion is told by the server",
    "test_log": "the history of an entry is drawn from the book",
    "test_measured": "units of the forms and of the log are the app's own",
    "test_parked": "what is set aside, and why, comes from the server",
    "test_rules": "which rules hold is worked out by the book's engine; WebKit lays the page out in test_access",
    "test_scorched": "what is left out is the book's engine; plans of strips are drawn in WebKit by test_access",
    "test_shopping_paper": "pages of paper are counted in the PDF that Chromium makes",
    "test_two_on_one_phone": "whose outbox is sent is decided by the store",
    "test_two_phones": "what two phones make of one another's edits is merged by the server",
    "test_weather": "what pages say is the app's own; a table is read as text",
    "test_yard": "taps, steps back and what is open over a job are the app's own; test_story walks the yard in WebKit",
    "test_zone": "what the page says is worked out by the book's engine; WebKit lays it out in test_access",
}


def browsers_of(module: str) -> tuple[str, ...]:
    """The browsers that walk the journeys of a module, named with its packages or without."""
    name = module.rpartition(".")[2]
    if name in BOTH:
        return BROWSERS
    if name in CHROMIUM_ALONE:
        return ("chromium",)
    raise LookupError(f"{name}: say in tests/lanes/engines.py which browsers walk it, and why")
