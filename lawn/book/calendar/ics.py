"""Jobs as an iCalendar object (RFC 5545, with the name and the pace of RFC 7986)."""

import re
from collections.abc import Iterable
from datetime import timedelta

from icalendar import Calendar, Event, vText

from lawn.book.calendar.steps import Job

PRODUCT = "-//Evenfall//Season//EN"
# An event has three states (RFC 5545, 3.8.1.11): what is done stays where it was done, what was put off may yet come.
STATUS = {"planned": "CONFIRMED", "done": "CONFIRMED", "put_off": "TENTATIVE", "removed": "CANCELLED"}
BEFORE = {"done": "Done: ", "put_off": "Put off: "}
_MOST_SEQUENCE = 2**31 - 1  # an INTEGER (RFC 5545, 3.3.8)
# No TEXT holds a control character (RFC 5545, 3.3.11), and half a pair of surrogates is no character at all.
_NO_TEXT = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]+")


def written(name: str, jobs: Iterable[Job], link: str) -> bytes:
    """Return a calendar of jobs; the same jobs are the same bytes. `link` leads to the season's page."""
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("name", _Text(plain(name)))
    calendar.add("x-wr-calname", _Text(plain(name)))  # for calendars older than RFC 7986
    calendar.add("refresh-interval", timedelta(hours=12), parameters={"VALUE": "DURATION"})
    for job in jobs:
        calendar.add_component(_event(job, link))
    return bytes(calendar.to_ical())


class _Text(vText):
    """A text escaped as RFC 5545, 3.3.11 has it: the package's own writes a typed backslash with an N as a new line."""

    def to_ical(self) -> bytes:
        """Put a backslash before what would end the text, and `n` for a new line."""
        escaped = str(self).replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,").replace("\n", "\\n")
        return escaped.encode()


def plain(text: str) -> str:
    """Return a line of text as iCalendar can hold it."""
    return _NO_TEXT.sub(" ", text)


def _event(job: Job, link: str) -> Event:
    event = Event()
    event.add("uid", f"{job.id}@evenfall")
    event.add("summary", _Text(plain(BEFORE.get(job.state, "") + job.title)))
    event.add("dtstart", job.first)
    event.add("dtend", job.last + timedelta(days=1))  # the day after the last (RFC 5545, 3.6.1)
    event.add("status", STATUS.get(job.state, "CONFIRMED"))
    event.add("transp", "TRANSPARENT")  # a window of days keeps nobody busy
    if job.lines:
        event.add("description", _Text("\n".join(plain(line) for line in job.lines)))
    event.add("url", link)
    # Without a METHOD both say when what is told here was last changed (RFC 5545, 3.8.7.2).
    event.add("dtstamp", job.changed)
    event.add("last-modified", job.changed)
    event.add("sequence", min(job.sequence, _MOST_SEQUENCE))
    return event
