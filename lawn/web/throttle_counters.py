"""How often one may try, counted in the database, so that every process of the server counts alike.

The generic cell rate algorithm (ITU-T Recommendation I.371, annex A, "virtual scheduling"): a counter holds the one
moment at which it will be empty again. Each try moves that moment on by period / count; one that would move it more
than a whole period past now is refused and moves nothing. So `count` tries may come at once, and then one each
period / count. It is one statement, and of two processes at once each counts once.
"""

import hashlib

from django.db import connection

from lawn.models import ThrottleCount

_TABLE = ThrottleCount._meta.db_table
_COUNT = f"""
    INSERT INTO {_TABLE} (key, due) VALUES (%s, %s)
    ON CONFLICT (key) DO UPDATE
    SET due = CASE WHEN {_TABLE}.due > %s THEN {_TABLE}.due ELSE %s END + %s
    WHERE {_TABLE}.due <= %s
    RETURNING due
"""  # noqa: S608 — the table's own name; every value is a parameter


def count_try(name: str, count: int, period_s: float, now_s: float) -> float:
    """Count one try; return 0.0 where it may pass, else the seconds to wait until one may.

    name: the counter, such as a scope and an address; only its SHA-256 is stored
    count: tries a period, from 1
    period_s: length of the period [s]
    now_s: Unix time [s]
    """
    key = hashlib.sha256(name.encode(errors="surrogatepass")).hexdigest()
    step = period_s / count
    latest = now_s + period_s - step
    with connection.cursor() as cursor:
        cursor.execute(_COUNT, [key, now_s + step, now_s, now_s, step, latest])
        if cursor.fetchall():
            return 0.0
    due = ThrottleCount.objects.filter(key=key).values_list("due", flat=True).first()
    return max(0.0, (due or now_s) - latest)


def forget(now_s: float) -> None:
    """Take out the counters that are empty again."""
    ThrottleCount.objects.filter(due__lt=now_s).delete()
