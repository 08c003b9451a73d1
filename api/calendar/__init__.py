"""The calendar link over HTTP, and the calendar behind it."""
