"""What befalls a household: each seed takes some of these, in its own order and measure."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from tests.simulation.acts import Hands
from tests.simulation.desk import Answer
from tests.simulation.weather import FATES, PORTAL, Weather
from tests.simulation.witness import DAY_MS

if TYPE_CHECKING:
    from tests.simulation.life import Life, Phone

_SIGNED_OUT = Answer(401, '{"code": "signed_out", "message": "Sign in to go on."}')
MINUTE_MS = 60_000


class Troubles:
    """The acts of one run."""

    def __init__(self, life: "Life", hands: Hands) -> None:
        self.life, self.hands, self.chance = life, hands, life.chance
        always: dict[Callable[[], None], float] = {self.save: 12, self.wake: 4}
        some: dict[Callable[[], None], float] = {
            self.withdraw: 2, self.storm: 4, self.kill: 1, self.arm: 2, self.second_tab: 1, self.close_tab: 1,
            self.power_cut: 1, self.lying_cut: 0.7, self.take_image: 1, self.restore_image: 0.7, self.clone: 0.5,
            self.evict: 0.5, self.no_room: 1, self.clock: 1.5, self.member: 1, self.damage: 0.6, self.steal: 1,
            self.decide_pending: 1, self.back_up: 1, self.restore_server: 0.7,
        }  # fmt: skip
        self.acts = always | {act: weight for act, weight in some.items() if self.chance.random() < 0.5}
        self.odd = self.chance.random() < 0.4
        self.fates = [fate for fate in FATES if self.chance.random() < 0.5]
        self.share = self.chance.choice([0.0, 0.1, 0.3, 0.6])
        self.images: list[str] = []
        self.backups: list[tuple[int, object]] = []

    def befall(self) -> None:
        """Let it all happen."""
        life, chance = self.life, self.chance
        for phone in life.phones.values():
            phone.weather = self.usual()
        for _ in range(chance.choices([6, 12, 40], [6, 4, 0.6])[0]):
            [act] = chance.choices(list(self.acts), list(self.acts.values()))
            act()
            life.go_on(life.moment.ms + self.gap())

    def gap(self) -> int:
        """Draw the pause until the next act: mostly seconds, now and then days, once in a while a year."""
        ends = [100, 5_000, 5 * MINUTE_MS, DAY_MS, 9 * DAY_MS, 400 * DAY_MS]
        [at] = self.chance.choices(range(5), [12, 8, 3, 1, 0.1])
        return self.chance.randint(ends[at], ends[at + 1])

    def usual(self) -> Weather:
        """Return the network a phone has in this run when nothing special is up."""
        return Weather() if self.life.over else Weather(self.fates, self.share)

    def phone(self) -> "Phone":
        """Pick a phone; one whose app was closed is opened."""
        phone = self.chance.choice(list(self.life.phones.values()))
        if not phone.tabs:
            self.life.open_tab(phone)
        return phone

    # What people do ------------------------------------------------------------------------------------------------

    def save(self) -> None:
        phone = self.phone()
        for _ in range(self.chance.choices([1, 2, 5], [6, 2, 1])[0]):
            if phone.tabs:
                self.life.save(phone, self.hands.write(phone.name, self.odd))

    def wake(self) -> None:
        self.life.wake(self.phone())

    def withdraw(self) -> None:
        phone = self.phone()
        self.life.save(phone, self.hands.write(phone.name, self.odd))
        if self.chance.random() < 0.3:
            self.life.wake(phone)
        if phone.tabs:
            self.life.withdraw(phone)

    def second_tab(self) -> None:
        phone = self.phone()
        if len(phone.tabs) < 3:
            self.life.open_tab(phone)
        self.life.wake(phone)

    def close_tab(self) -> None:
        phone = self.phone()
        self.life.order("close", phone.name, tab=self.chance.choice(sorted(phone.tabs)))

    # The network ---------------------------------------------------------------------------------------------------

    def storm(self) -> None:
        """Something stands in the way for a while: no network, a portal, an expired sign-in, a narrow proxy."""
        life, phone = self.life, self.phone()
        phone.weather = self.chance.choice(
            [
                Weather(down=True),
                Weather(wall=PORTAL),
                Weather(wall=_SIGNED_OUT),
                Weather(self.fates, self.share, most_bytes=self.chance.randint(300, 2_000)),
            ]
        )
        life.later(self.gap(), lambda: setattr(phone, "weather", self.usual()))

    # The phone -----------------------------------------------------------------------------------------------------

    def kill(self) -> None:
        self.life.order("kill", self.phone().name)

    def arm(self) -> None:
        """The app dies between two of its steps, soon."""
        phone = self.phone()
        self.life.order("arm", phone.name, n=self.chance.randint(0, 60))
        self.life.save(phone, self.hands.write(phone.name, self.odd))
        self.life.wake(phone)

    def power_cut(self) -> None:
        self.life.order("cut", self.phone().name, n=0)

    def lying_cut(self) -> None:
        """A power cut, and the storage had called safe what it had not stored yet."""
        phone = self.phone()
        self.life.order("cut", phone.name, n=self.chance.randint(1, 3))
        self.life.witness.wiped(phone.name, "power cut")

    def take_image(self) -> None:
        name = f"image{len(self.images)} of {self.phone().name}"
        self.images.append(name)
        self.life.order("image", name.split(" of ")[1], said=name)

    def restore_image(self) -> None:
        """The phone is set up again from a backup of itself."""
        if self.images:
            name = self.chance.choice(self.images)
            phone = name.split(" of ")[1]
            self.life.order("restore", phone, said=name)
            self.life.witness.wiped(phone, "old image")

    def clone(self) -> None:
        """A new phone is set up from the backup of another, which goes on."""
        if self.images and len(self.life.phones) < 8:
            name = self.chance.choice(self.images)
            owner = self.life.phones[name.split(" of ")[1]].person
            twin = self.life.add_phone(owner)
            twin.weather = self.usual()
            self.life.order("restore", twin.name, said=name)
            self.life.open_tab(twin)

    def evict(self) -> None:
        phone = self.phone()
        self.life.order("restore", phone.name, said="nothing")
        self.life.witness.wiped(phone.name, "evicted")

    def no_room(self) -> None:
        phone = self.phone()
        phone.full = not phone.full
        self.life.order("full", phone.name, on=phone.full)

    def clock(self) -> None:
        offsets = [0, 0, 2 * DAY_MS, -3 * 365 * DAY_MS, 3_600_000, -3_600_000, 40 * DAY_MS, 400 * DAY_MS]
        self.life.order("clock", self.phone().name, n=self.chance.choice(offsets))

    def damage(self) -> None:
        """One row of what the server sent is gone, silently (F52)."""
        phone = self.phone()
        rows = sorted(self.life.witness.table(phone.name, "base"))
        if rows:
            self.life.damaged = True
            self.life.order("damage", phone.name, rows=[["base", self.chance.choice(rows), None]])

    def steal(self) -> None:
        """Another tab takes the lead from one that seems frozen."""
        self.life.order("steal", self.phone().name)

    # The server --------------------------------------------------------------------------------------------------

    def back_up(self) -> None:
        self.backups.append((self.life.moment.ms, self.life.desk.store.image()))

    def restore_server(self) -> None:
        """The server is set up again from a backup of the last days, with a new epoch (F22)."""
        recent = [image for at, image in self.backups if self.life.moment.ms - at < 20 * DAY_MS]
        if recent:
            self.life.restore_server(self.chance.choice(recent))

    # The household -------------------------------------------------------------------------------------------------

    def decide_pending(self) -> None:
        self.life.desk.decide_pending(self.chance)
        self.life.witness.served()

    def member(self) -> None:
        """Remove somebody, or invite them again."""
        people = range(1, len(self.life.desk.people))
        if people:
            person = self.chance.choice(people)
            self.life.set_member(person, person in self.life._removed)
