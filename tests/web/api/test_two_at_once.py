"""Two tablets of one bench at once: every entry is stored once, and numbers have no gap."""

from concurrent.futures import ThreadPoolExecutor

from app.store.database import Database
from tests.make import join
from tests.web.api.outside import Class, Outside, reading

STEPS = 12


def test_two_tablets_sending_the_same_entries_store_each_once(
    outside: Outside, a_class: Class, database: Database
) -> None:
    second = join(database, a_class.lesson).token
    entries = [reading(step, str(218 + 4 * step)) for step in range(STEPS)]
    before = outside.get(f"{a_class.at}/changes", token=a_class.teacher).body["head"]

    def send(token: str) -> list[tuple[int, int]]:
        heard = [outside.post(f"{a_class.bench}/readings", one, token=token) for one in entries]
        return [(one.status, one.body["n"]) for one in heard]

    with ThreadPoolExecutor(2) as tablets:
        one, other = tablets.map(send, (a_class.tablet, second))
    assert [{left[0], right[0]} for left, right in zip(one, other, strict=True)] == [{200, 201}] * STEPS
    assert [n for _, n in one] == [n for _, n in other]
    told = outside.get(f"{a_class.at}/changes?after={before}", token=a_class.teacher).body
    assert [change["n"] for change in told["changes"]] == list(range(before + 1, before + STEPS + 1))
    readings = outside.get(a_class.bench, token=a_class.tablet).body["readings"]
    assert [(one["step"], one["state"]) for one in readings] == [(step, "stands") for step in range(STEPS)]


def test_two_tablets_with_numbers_of_their_own_keep_both(outside: Outside, a_class: Class, database: Database) -> None:
    second = join(database, a_class.lesson).token

    def send(tablet: tuple[str, int]) -> list[int]:
        token, shift = tablet
        sent = [reading(step, str(218 + 4 * step + shift)) for step in range(STEPS)]
        return [outside.post(f"{a_class.bench}/readings", one, token=token).status for one in sent]

    with ThreadPoolExecutor(2) as tablets:
        statuses = list(tablets.map(send, ((a_class.tablet, 0), (second, 1))))
    assert statuses == [[201] * STEPS] * 2
    told = outside.get(a_class.bench, token=a_class.tablet).body
    assert [one["state"] for one in told["readings"]] == ["differs"] * (2 * STEPS)
    assert len(told["look_again"]) == STEPS
