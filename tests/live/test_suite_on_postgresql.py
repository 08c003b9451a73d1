"""One code for both databases: the tests a database can change, run once more with DATABASE_URL=postgresql://…"""

import os
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

from tests.journeys.server import ROOT
from tests.lanes.databases import AGAIN
from tests.live.cluster import Cluster

NAME = "suite"


def pytest_of(*options: str, database: str) -> "subprocess.CompletedProcess[str]":
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", *AGAIN, *options]
    env = {name: value for name, value in os.environ.items() if not name.startswith(("EVENFALL_", "PYTEST_"))}
    env["DATABASE_URL"] = database
    return subprocess.run(command, cwd=ROOT, env=env, capture_output=True, text=True, check=False)


def test_s12_the_same_tests_pass_on_postgresql_as_many_as_there_are_on_sqlite(cluster: Cluster, tmp_path: Path) -> None:
    cluster.create(NAME)
    report = tmp_path / "report.xml"
    done = pytest_of("-n", "2", "--create-db", "--reuse-db", f"--junitxml={report}", database=cluster.url(NAME))
    assert done.returncode == 0, done.stdout[-6000:]
    suite = ElementTree.parse(report).getroot()[0]
    counts = {name: int(suite.attrib[name]) for name in ("tests", "failures", "errors", "skipped")}
    listed = pytest_of("--collect-only", database=f"sqlite:///{tmp_path / 'book.sqlite3'}")
    there = sum("::" in line for line in listed.stdout.splitlines())
    assert counts == {"tests": there, "failures": 0, "errors": 0, "skipped": 0}
    # and it was PostgreSQL that they ran on: each of the two workers left a database in which much was done
    work = dict(cluster.ask("SELECT datname, xact_commit + xact_rollback FROM pg_stat_database WHERE datname LIKE %s",
                            [f"test_{NAME}%"]))  # fmt: skip
    assert len(work) >= 2
    assert sum(work.values()) > there
