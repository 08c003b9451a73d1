"""A household with some history, and a data folder of its own."""

from pathlib import Path
from typing import Any

import pytest
from django.db.backends.base.base import BaseDatabaseWrapper

from lawn.book.people import devices
from lawn.models import Member
from lawn.operations.staging import ALIAS
from tests import pictures
from tests.factories import NOW, KeeperFactory, MemberFactory
from tests.sync.conftest import poster
from tests.sync.phone import Phone

ZONE = "0190aaaa-0000-7000-8000-0000000000b1"
PICTURE = pictures.jpeg(pictures.quarters(40, 30))
PICTURE_NAME = pictures.name(PICTURE)


@pytest.fixture
def staging_allowed(db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """Django's test cases forbid every database not named beforehand; a restore makes one while it runs."""
    guarded = BaseDatabaseWrapper.ensure_connection

    def ensure(self: BaseDatabaseWrapper) -> None:
        if self.alias != ALIAS:
            guarded(self)
        elif self.connection is None:
            self.connect()

    monkeypatch.setattr(BaseDatabaseWrapper, "ensure_connection", ensure)


@pytest.fixture
def folder(tmp_path: Path, settings: Any) -> Path:
    """The data folder, closed to others."""
    settings.DATA_DIR = tmp_path / "data"
    settings.PHOTOS_DIR = settings.DATA_DIR / "photos"
    settings.DATA_DIR.mkdir(mode=0o700)
    return Path(settings.DATA_DIR)


@pytest.fixture
def keeper(staging_allowed: None, folder: Path) -> Member:
    """The keeper of a household with a zone, a conflict about its name, entries, a parked op and a photo file."""
    keeper: Member = KeeperFactory.create()
    member = MemberFactory.create(household_id=keeper.household_id)
    mine = Phone(poster(keeper), devices.register(keeper, "Mine", NOW).id)
    theirs = Phone(poster(member), devices.register(member, "Theirs", NOW).id)
    mine.write("zone", ZONE, name={"name": "Verge"})
    mine.sync()
    theirs.sync()
    mine.write("zone", ZONE, name={"name": "Verge, mine"})
    theirs.write("zone", ZONE, name={"name": "Verge, theirs – größer"})
    for phone in (mine, theirs):
        phone.log("observation", text="Dew – naß")
        phone.save({"t": "moon", "id": ZONE, "set": {"name": {"name": "Full"}}})
        phone.sync()
    place = folder / "photos" / str(keeper.household_id) / PICTURE_NAME[:2] / PICTURE_NAME
    place.parent.mkdir(parents=True)
    place.write_bytes(PICTURE)
    return keeper
