"""One seed: a household lives through what the seed draws, then all is quiet, and the promises are looked at."""

import heapq
import random
from typing import Any

from lawn.models import Member
from tests.simulation.acts import Hands
from tests.simulation.desk import Answer, Desk
from tests.simulation.phones import Phones
from tests.simulation.troubles import Troubles
from tests.simulation.verdict import Outcome, Verdict
from tests.simulation.weather import NOTHING, PORTAL, REDIRECT, TIMEOUT_MS, Weather, code
from tests.simulation.witness import DAY_MS, Witness

START_MS = 1_780_272_000_000  # 2026-06-01T00:00:00Z: after every moment that acts.py writes
HOUR_MS = 3_600_000
# Between two acts a phone that is not looked at mostly sleeps: it runs a timer only so often.
AWAKE_SHARE = 0.12
QUIET_ROUNDS = 2


class Phone:
    """A phone as the driver knows it."""

    def __init__(self, name: str, person: int) -> None:
        self.name, self.person = name, person
        self.weather = Weather()
        self.tabs: set[int] = set()
        self.made = 0
        self.full = False
        self.last_op: str | None = None


class Life:
    """The driver of one run: it alone decides, and only by the seed."""

    def __init__(self, seed: int, phones: Phones, desk: Desk, watched: bool = True) -> None:
        self.seed, self.desk, self._node = seed, desk, phones
        self.chance = random.Random(seed)
        self.moment = desk.moment
        self.moment.ms = START_MS + self.chance.randrange(300 * DAY_MS)
        self.moment.chance = random.Random(-1 - seed)
        self.phones: dict[str, Phone] = {}
        self.witness = Witness(desk, watched)
        self.requests = 0
        # no more troubles; some storage lost a row
        self.over = self.damaged = False
        self._due: list[tuple[int, int, Any]] = []
        self._count = 0
        self._timers: dict[tuple[str, int], int] = {}
        self._open: dict[tuple[str, int, int], bool] = {}
        # (phone, tab, tag): what to do with the answer to something a person asked for
        self._removed: set[int] = set()

    # Orders ------------------------------------------------------------------------------------------------------

    def order(self, what: str, phone: str = "", **said: Any) -> None:
        """Give the phones' half one order, and take note of all that follows from it."""
        told, timers = self._node.order(what, self.moment.ms, p=phone, **said)
        for one in told:
            self._heard(one)
        for tab, at in timers.items():
            if at is None:
                self._timers.pop((phone, int(tab)), None)
            else:
                self._timers[(phone, int(tab))] = at
        self.witness.settle()

    def _heard(self, one: list[Any]) -> None:
        what, phone, *rest = one
        if what in ("commit", "undone", "whole", "damage"):
            self.witness.committed(what, phone, rest[0], self.moment.ms)
        elif what == "ask":
            self._asked(phone, *rest)
        elif what == "saved":
            self.phones[phone].last_op = rest[2]
            self.witness.told(phone, rest[2])
        elif what == "withdrawn":
            if rest[2] is False and self.phones[phone].last_op in self.witness.ops:
                self.witness.ops[self.phones[phone].last_op or ""].gone = None
        elif what == "died":
            self.phones[phone].tabs.discard(rest[0])
            self._timers.pop((phone, rest[0]), None)
        elif what == "error":
            self.witness.broken("P8", f"{phone}: {rest}")

    def later(self, ms: int, work: Any) -> None:
        """Do something after a while."""
        self._count += 1
        heapq.heappush(self._due, (self.moment.ms + ms, self._count, work))

    def go_on(self, until: int, turns: int | None = None) -> None:
        """Let everything happen that is due by a moment.

        Each phone's timers run only `turns` times; where that is not said, once or not at all, as chance has it.
        """
        left = {name: int(self.chance.random() < AWAKE_SHARE) if turns is None else turns for name in self.phones}
        while True:
            timer = self._next_timer(left, until)
            due = self._due[0][0] if self._due else until + 1
            if min(timer[0], due) > until:
                break
            self.moment.ms = max(self.moment.ms, min(timer[0], due))
            if due <= timer[0]:
                heapq.heappop(self._due)[2]()
            else:
                left[timer[1][0]] -= 1
                del self._timers[timer[1]]
                self.order("tick", timer[1][0], tab=timer[1][1])
        self.moment.ms = max(self.moment.ms, until)

    def _next_timer(self, left: dict[str, int], until: int) -> tuple[int, tuple[str, int]]:
        """Return (moment, (phone, tab)) of the first timer that may still run; a later moment where there is none."""
        never = (until + 1, ("", 0))
        if not any(left.values()):
            return never
        return min(((at, key) for key, at in self._timers.items() if left[key[0]] > 0), default=never)

    # The network -------------------------------------------------------------------------------------------------

    def _asked(self, phone: str, tab: int, number: int, method: str, path: str, text: str | None) -> None:
        self.requests += 1
        which = (phone, tab, number)
        self._open[which] = True
        weather = self.phones[phone].weather
        fate = weather.fate(self.chance)
        quick = self.chance.randint(5, 300)

        def reach(killed: bool = False) -> Answer:
            return self._served(phone, method, path, text, killed)

        def arrive(spoil: Any = None, killed: bool = False) -> None:
            answer = reach(killed)
            self.later(self.chance.randint(1, 300), lambda: self._answer(which, spoil(answer) if spoil else answer))

        self.later(TIMEOUT_MS, lambda: self._answer(which, NOTHING))
        if weather.down:
            return self.later(quick, lambda: self._answer(which, NOTHING))
        if weather.wall is not None:
            wall = weather.wall
            return self.later(quick, lambda: self._answer(which, wall))
        if weather.most_bytes is not None and len(text or "") > weather.most_bytes:
            return self.later(quick, lambda: self._answer(which, Answer(413, "{}")))
        if fate == "fine":
            self.later(quick, arrive)
        elif fate == "refused":
            self.later(quick, lambda: self._answer(which, NOTHING))
        elif fate == "lost_answer":
            self.later(quick, reach)
        elif fate == "cut":
            self.later(quick, lambda: arrive(self._cut))
        elif fate == "doubled":
            self.later(quick, arrive)
            self.later(quick + self.chance.randint(0, 90_000), reach)
        elif fate == "late":
            self.later(self.chance.randint(1_000, 6 * HOUR_MS), arrive)
        elif fate == "page":
            self.later(quick, lambda: arrive(lambda answer: Answer(answer.status, answer.text, PORTAL.headers)))
        elif fate in ("killed_before", "killed_after"):
            self.later(quick, lambda: arrive(lambda answer: NOTHING, killed=fate == "killed_before"))
        elif fate in ("portal", "redirect", "code"):
            answer = {"portal": PORTAL, "redirect": REDIRECT}.get(fate) or code(self.chance)
            self.later(quick, lambda: self._answer(which, answer))

    def _cut(self, answer: Answer) -> Answer:
        if not answer.text:
            return answer
        return Answer(answer.status, answer.text[: self.chance.randrange(len(answer.text))], answer.headers)

    def _served(self, phone: str, method: str, path: str, text: str | None, killed: bool) -> Answer:
        person = self.phones[phone].person
        answer = self.desk.handle(person, phone, method, path, text, killed)
        self.witness.served()
        if person in self._removed and answer.text and self._leaks(answer):
            self.witness.broken("P10", f"{phone} is no member's, and was told {answer.text[:200]}")
        return answer

    def _leaks(self, answer: Answer) -> bool:
        return any(str(self.desk.household) in (answer.text or "") or f'"{t}"' in (answer.text or "") for t in _KINDS)

    def _answer(self, which: tuple[str, int, int], answer: Answer) -> None:
        if not self._open.pop(which, False):
            return
        phone, tab, number = which
        said = {"status": answer.status, "headers": answer.headers, "text": answer.text}
        self.order("answer", phone, tab=tab, id=number, **said)

    # What people do ----------------------------------------------------------------------------------------------

    def add_phone(self, person: int, locks: bool = True) -> Phone:
        """Unpack a new phone of a person."""
        phone = Phone(f"phone{len(self.phones)}", person)
        self.phones[phone.name] = phone
        self.order("phone", phone.name, said=str(self.desk.household), on=locks)
        return phone

    def open_tab(self, phone: Phone) -> None:
        """Open the app, or another tab of it."""
        phone.made += 1
        phone.tabs.add(phone.made)
        self.order("open", phone.name, tab=phone.made)

    def save(self, phone: Phone, items: list[dict[str, Any]]) -> None:
        """Enter something on a phone."""
        self.order("save", phone.name, tab=self.chance.choice(sorted(phone.tabs)), tag=0, m=items)

    def withdraw(self, phone: Phone) -> None:
        """Take the last entry back; it stays wherever the phone says that it is too late."""
        said = self.witness.ops.get(phone.last_op or "")
        if said is not None and said.gone is None:
            said.gone = "withdrawn"
            self.order("withdraw", phone.name, tab=self.chance.choice(sorted(phone.tabs)), tag=0, said=said.op)

    def set_member(self, person: int, active: bool) -> None:
        """Remove a member, or invite them again."""
        self.desk.set_active(person, active)
        self.witness.served()
        (self._removed.discard if active else self._removed.add)(person)

    def restore_server(self, image: Any) -> None:
        """Put the server back to a backup."""
        self.desk.store.restore(image)
        self.desk.new_epoch()
        active = {row["id"] for row in self.desk.store.plain(Member) if row["active"]}
        self._removed = {number for number, member in enumerate(self.desk.members) if member not in active}
        self.witness.rolled_back(self.moment.ms)

    # The run -----------------------------------------------------------------------------------------------------

    def live(self) -> Outcome:
        """Live through it all; return what became of it."""
        people = self.chance.choices([1, 2, 3, 4], [1, 5, 3, 1])[0]
        count = max(people, self.chance.choices(range(2, 9), [8, 5, 2.5, 1, 0.5, 0.4, 0.4])[0])
        self.desk.begin(people)
        # in one of ten lives nothing that was read from the tables can be changed in place: doing so then shows
        self.order("begin", said=str(self.seed), on=self.seed % 10 == 0)
        locks = self.chance.random() < 0.6
        first = self.add_phone(0, locks)
        self.open_tab(first)
        hands = Hands(self.chance, self.moment, self.witness)
        for items in hands.founding():
            self.save(first, items)
        self.go_on(self.moment.ms + 5_000, turns=1)
        for number in range(1, count):
            self.open_tab(self.add_phone(number % people, locks))
        self.go_on(self.moment.ms + 5_000, turns=0)
        troubles = Troubles(self, hands)
        troubles.befall()
        troubles.acts.clear()
        return self.quiet()

    def forget(self) -> None:
        """Let go of all of it, so that nothing is left in circles for the collector to find."""
        self._due.clear()
        self.__dict__.clear()

    def wake(self, phone: Phone) -> None:
        """Look at a phone: every tab of it tries to sync."""
        for tab in sorted(phone.tabs):
            self.order("wake", phone.name, tab=tab)

    def quiet(self) -> Outcome:
        """Mend everything, let each phone sync in so many rounds, and judge."""
        self.over = True
        for phone in self.phones.values():
            phone.weather = Weather()
            # what the storage lost silently is looked for at each start of the app (F52)
            self.order("calm", phone.name, on=self.damaged)
            if not phone.tabs:
                self.open_tab(phone)
        self.go_on(self.moment.ms + 8 * HOUR_MS, turns=0)
        for _ in range(QUIET_ROUNDS):
            for phone in self.phones.values():
                self.wake(phone)
                self.go_on(self.moment.ms + 5_000, turns=0)
                if self.witness.table(phone.name, "meta").get("sync", {}).get("state") != "ok":
                    # a round that was refused (the server did not know the phone) is tried again by itself
                    self.go_on(self.moment.ms + 15_000, turns=2)
        if not self.witness.watches:
            return Outcome(self.seed)
        current = {phone.name: phone.person not in self._removed for phone in self.phones.values()}
        outcome = Verdict(self.witness, self.seed).reach(current)
        outcome.requests = self.requests
        return outcome


_KINDS = ("zone", "product", "spreader", "entry", "conflict", "household", "member")
