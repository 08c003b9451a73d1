"""Which migrations a store or an archive has seen, and its tables as they were then."""

from django.apps.registry import Apps
from django.db import connections
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder

from lawn.operations import Refused

Applied = dict[str, list[str]]  # app: names of migrations


def applied(using: str = "default") -> Applied:
    """Return the migrations a database has seen, those of this program only."""
    known = MigrationLoader(None).disk_migrations
    found: Applied = {}
    for app, name in sorted(MigrationRecorder(connections[using]).applied_migrations()):
        if app in {app for app, _ in known}:
            found.setdefault(app, []).append(name)
    return found


def missing(using: str = "default") -> list[str]:
    """Return the migrations this program has and the database has not seen, as app.name."""
    seen = {(app, name) for app, names in applied(using).items() for name in names}
    return sorted(f"{app}.{name}" for app, name in MigrationLoader(None).disk_migrations if (app, name) not in seen)


def unknown(seen: Applied) -> list[str]:
    """Return the migrations that this program does not have: they were made by a newer one."""
    known = set(MigrationLoader(None).disk_migrations)
    return sorted(f"{app}.{name}" for app, names in seen.items() for name in names if (app, name) not in known)


def refuse_newer(seen: Applied, what: str) -> None:
    """Raise Refused for tables that a newer program has made."""
    newer = unknown(seen)
    if newer:
        raise Refused(f"{what} is of a newer version of this program ({newer[-1]}). Update the program first.")


def _last(seen: Applied) -> list[tuple[str, str]]:
    """Return the newest migrations of each app: those that no other one seen depends on within the app."""
    graph = MigrationLoader(None).graph
    nodes = {(app, name) for app, names in seen.items() for name in names}
    inner = {
        parent.key
        for node in nodes
        for parent in graph.node_map[node].parents
        if parent.key[0] == node[0] and parent.key in nodes
    }
    return sorted(nodes - inner)


def apps_at(seen: Applied) -> Apps:
    """Return the models as these migrations left them."""
    return MigrationLoader(None).project_state(_last(seen)).apps


def migrate_to(seen: Applied, using: str) -> None:
    """Bring an empty database to where these migrations left theirs."""
    MigrationExecutor(connections[using]).migrate(_last(seen))


def migrate_on(using: str) -> None:
    """Bring a database to the newest tables."""
    executor = MigrationExecutor(connections[using])
    executor.migrate(executor.loader.graph.leaf_nodes())
