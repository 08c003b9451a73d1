"""All planted faults."""

from tests.plants import (
    amounts,
    dial,
    ground,
    households,
    merging,
    phone_store,
    phone_sync,
    photos,
    pushing,
    reading,
    season,
    weather,
)
from tests.plants.fault import Planted

TOPICS: dict[str, tuple[Planted, ...]] = {
    "pushing": pushing.PLANTS,
    "merging": merging.PLANTS,
    "reading": reading.PLANTS,
    "households": households.PLANTS,
    "ground": ground.PLANTS,
    "photos": photos.PLANTS,
    "amounts": amounts.PLANTS,
    "dial": dial.PLANTS,
    "season": season.PLANTS,
    "weather": weather.PLANTS,
    "phone: store": phone_store.PLANTS,
    "phone: sync": phone_sync.PLANTS,
}
ALL: dict[str, Planted] = {plant.name: plant for plants in TOPICS.values() for plant in plants}
