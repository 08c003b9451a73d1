"""A first plan, made week by week: the start the solver begins from, and what there is before it is done."""

from lawn.engine.core.numeric import whole_up

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from lawn.engine.season.model import Model

SLACK = 1e-7


class Start:
    """Values of all columns, with the sums of rows and the cost kept along: a change looks at its own rows only."""

    def __init__(self, model: "Model") -> None:
        """Begin with every column at 0."""
        self.model = model
        self.values = [0.0] * len(model.columns)
        self.sums = [0.0] * len(model.rows)
        self.cost = 0.0
        self.journal: list[tuple[int, float]] = []
        self.touched: list[int] = []
        self.rows_of: list[list[tuple[int, float]]] = [[] for _ in model.columns]
        for at in range(len(model.rows)):
            for column, factor in model.rows[at]["terms"]:
                self.rows_of[column].append((at, factor))

    def put(self, column: int, value: float) -> None:
        """Set a column; what it was goes into the journal, its rows among those touched."""
        step = value - self.values[column]
        if step == 0.0:
            return
        self.journal.append((column, self.values[column]))
        self.values[column] = value
        self.cost += step * self.model.columns[column]["cost"]  # type: ignore[operator]
        for row, factor in self.rows_of[column]:
            self.sums[row] += step * factor
            self.touched.append(row)

    def begin(self) -> None:
        """From here on changes can be taken back."""
        self.journal, self.touched = [], []

    def back(self) -> None:
        """Take back what was changed since the beginning."""
        for at in range(len(self.journal) - 1, -1, -1):
            column, value = self.journal[at]
            self.put(column, value)
        self.begin()

    def holds(self) -> bool:
        """Whether all rows touched since the beginning are kept."""
        return all(self._kept(row) for row in self.touched)

    def _kept(self, at: int) -> bool:
        row = self.model.rows[at]
        slack = SLACK * max(1.0, abs(self.sums[at]))
        if row["low"] is not None and self.sums[at] < row["low"] - slack:
            return False
        return bool(row["high"] is None or self.sums[at] <= row["high"] + slack)

    def take(self, changes: "list[tuple[int, float]]", settle: "Any") -> bool:
        """Make the changes and what follows from them, unless a row breaks."""
        self.begin()
        for column, value in changes:
            self.put(column, value)
        settle.after([column for column, _ in changes])
        if self.holds():
            return True
        self.back()
        return False


def start_of(model: "Model", plan: "dict[str, Any]") -> list[float]:
    """A first plan: the best of those made with all products and with each one alone, where evenings are shared."""
    feeds = sorted({model.told[at]["product"] for at in model.of("feed")})
    best = _made(model, plan, feeds)
    for one in feeds if len(feeds) > 1 else []:
        found = _made(model, plan, [one])
        if found.cost < best.cost:
            best = found
    return best.values


def _made(model: "Model", plan: "dict[str, Any]", feeds: "list[str]") -> Start:
    """Jobs at their first week that is free, each group fed on by what costs least for its need."""
    start = Start(model)
    for at in model.of("skip") + model.of("left_out"):
        start.put(at, 1.0)
    settle = _Settling(start, plan)
    settle.bags_of([one["id"] for one in plan["products"]])
    for locked in (True, False):
        for of in plan["groups"]:
            _jobs(start, settle, of, plan, locked)
    for of in plan["groups"]:
        _feeds(start, settle, of, plan, feeds)
    return start


class _Settling:
    """Evenings, bags, leftovers and added kilograms as they follow from the yes or no of the rest."""

    def __init__(self, start: Start, plan: "dict[str, Any]") -> None:
        self.start, self.plan, told = start, plan, start.model.told
        self.products = {one["id"]: one for one in plan["products"]}
        self.minutes = {of["id"]: of["minutes"] for of in plan["groups"]}
        self.evening_of, self.more_of, self.room_of = {}, {}, {}  # type: ignore[var-annotated]
        self.takers: dict[str, list[int]] = {one: [] for one in self.products}
        self.bag = {told[at]["product"]: at for at in start.model.of("bags")}
        self.left = {told[at]["product"]: at for at in start.model.of("left")}
        for at in start.model.of("evening"):
            for column in told[at]["takes"]:
                self.evening_of[column] = at
        for at in start.model.of("more"):
            self.more_of[(told[at]["group"], told[at]["product"])] = at
            self.room_of[at] = []
        for at in range(len(told)):
            if told[at]["what"] in ("feed", "job", "more") and told[at]["product"] is not None:
                self.takers[told[at]["product"]].append(at)
            if told[at]["what"] == "feed" and (told[at]["group"], told[at]["product"]) in self.more_of:
                self.room_of[self.more_of[(told[at]["group"], told[at]["product"])]].append(at)

    def after(self, changed: list[int]) -> None:
        """Set what follows from these columns."""
        told = self.start.model.told
        for at in sorted({self.evening_of[column] for column in changed if column in self.evening_of}):
            self._evening(at)
        feeds = [told[column] for column in changed if told[column]["what"] == "feed"]
        for key in sorted({(one["group"], one["product"]) for one in feeds}):
            if key in self.more_of:
                self._more(self.more_of[key])
        self.bags_of(sorted({told[column]["product"] for column in changed if told[column].get("product")}))

    def _evening(self, at: int) -> None:
        told, minutes = self.start.model.told, 0.0
        taken = [column for column in told[at]["takes"] if self.start.values[column] > 0.5]
        for column in taken:
            minutes += self.minutes[told[column]["group"]]
        need = whole_up(minutes / self.plan["wishes"]["evening_minutes"])
        self.start.put(at, float(max(1, need)) if taken else 0.0)

    def _more(self, at: int) -> None:
        room, told = 0.0, self.start.model.told
        for column in self.room_of[at]:
            if self.start.values[column] > 0.5:
                room += told[column]["high_kg"] - told[column]["low_kg"]
        self.start.put(at, room)

    def bags_of(self, products: "list[str]") -> None:
        """Whole bags of these products, and what is left of them."""
        told, values = self.start.model.told, self.start.values
        for one in products:
            if one not in self.bag:
                continue
            used, product = 0.0, self.products[one]
            for column in self.takers[one]:
                used += values[column] * (1.0 if told[column]["what"] == "more" else told[column]["low_kg"])
            bags = max(0, whole_up((used - product["stock_kg"]) / product["net_kg"]))
            self.start.put(self.bag[one], float(bags))
            self.start.put(self.left[one], max(0.0, product["stock_kg"] + bags * product["net_kg"] - used))


def _jobs(start: Start, settle: _Settling, of: "dict[str, Any]", plan: "dict[str, Any]", locked: bool) -> None:
    told = start.model.told
    left_out = {told[at]["job"]: at for at in start.model.of("left_out") if told[at]["group"] == of["id"]}
    pinned = [(one["job"], one["week"]) for one in plan["locked"] if one["group"] == of["id"]]
    chosen: list[str] = []
    for column in of["jobs_there"]:
        job = told[column]["job"]
        is_pinned = any(one[0] == job for one in pinned)
        if is_pinned != locked or job in chosen or (locked and (job, told[column]["week"]) not in pinned):
            continue
        if start.values[column] > 0.5 or any(
            start.values[at] > 0.5 for at in of["jobs_there"] if told[at]["job"] == job
        ):
            continue
        changes = [(column, 1.0)] + ([(left_out[job], 0.0)] if job in left_out else [])
        if start.take(changes, settle):
            chosen.append(job)


def _feeds(start: Start, settle: _Settling, of: "dict[str, Any]", plan: "dict[str, Any]", feeds: "list[str]") -> None:
    """From node to node: the arc that costs least beside leaving its weeks unfed, by the need it covers."""
    told, nodes = start.model.told, of["nodes"]
    skips = {told[at]["week"]: at for at in start.model.of("skip") if told[at]["group"] == of["id"]}
    pins = {
        one["week"]: one["product"]
        for one in plan["locked"]
        if one["group"] == of["id"] and one["product"] and not one["job"]
    }
    at = 0
    while at < len(nodes) - 1:
        week = nodes[at]
        ends = [one for one in sorted(pins) if one > week]
        open_arcs = [
            column
            for column in of["starts"]
            if told[column]["week"] == week
            and (not ends or told[column]["until"] <= ends[0])
            and told[column]["product"] in ([pins[week]] if week in pins else feeds)
        ]
        at = _next(start, settle, open_arcs, skips, nodes, at)


def _next(start: Start, settle: _Settling, arcs: list[int], skips: "dict[int, int]", nodes: list[int], at: int) -> int:
    """The place of the node the path goes on from."""
    told = start.model.told
    before, best, best_gain = start.cost, -1, 0.0
    for column in arcs:
        if start.take(_changes(told[column], column, skips, nodes), settle):
            gain = (before - start.cost) / (told[column]["until"] - told[column]["week"])
            start.back()
            if gain > best_gain:
                best, best_gain = column, gain
    if best < 0:
        return at + 1
    start.take(_changes(told[best], best, skips, nodes), settle)
    return nodes.index(told[best]["until"])


def _changes(
    arc: "dict[str, Any]", column: int, skips: "dict[int, int]", nodes: list[int]
) -> "list[tuple[int, float]]":
    return [(column, 1.0)] + [(skips[node], 0.0) for node in nodes if arc["week"] <= node < arc["until"]]
