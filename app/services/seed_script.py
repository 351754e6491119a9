"""The entries of an invented lesson, played one by one through the verbs that everyone's entries go through."""

import json
import uuid
from collections.abc import Callable, Mapping
from datetime import datetime, timedelta
from typing import Any

from app.services import joining, readings, rulings, running
from app.services.lessons import bench_id_of, lesson_record, slip_codes
from app.services.recording import Sender, Sent, Target
from app.store.database import Database

Seed = Mapping[str, Any]


def named_id(lesson_id: str, name: str) -> str:
    """The id of what is called so in that lesson: the same name has the same id, whoever asks."""
    return str(uuid.uuid5(uuid.UUID(lesson_id), name))


def name_of(entry: Seed) -> str:
    """What an entry is called within its lesson: its key, else all that it says."""
    return str(entry.get("key") or json.dumps(entry, sort_keys=True))


class Script:
    """Plays the entries of one seed into one lesson; an entry's id follows from its name, so it is played once."""

    def __init__(self, database: Database, lesson_id: str, seed: Seed, *, begins: datetime) -> None:
        self.seed = seed
        self._database = database
        self._lesson_id = lesson_id
        self._begins = begins
        self._tablets: dict[tuple[str, str], str] = {}
        self._benches: dict[str, str] = {}
        self._verbs: dict[str, Callable[[Seed, datetime], Any]] = {
            "take": self._take,
            "measure": self._measure,
            "reading": self._reading,
            "event": self._event,
            "ending": self._ending,
            "specimen": self._fresh_cord,
            "ruling": self._ruling,
            "stage": self._stage,
            "bench": self._bench,
            "shelf": self._shelf,
        }

    def entry_id(self, name: str) -> str:
        """The id of the entry of that name."""
        return named_id(self._lesson_id, name)

    def play(self, entry: Seed, at: datetime) -> None:
        """The entry is in the lesson, as if it had been sent at that moment."""
        self._verbs[entry["do"]](entry, at)

    def weigh(self) -> None:
        """Every tray's masses are known from the balance check before the lesson began."""
        division = self.seed["balance_division_g"]
        for bench, masses in self.seed["trays"].items():
            for mark, mass in enumerate(masses):
                rulings.weigh(
                    self._database,
                    self._target(bench),
                    mark=mark,
                    mass_g=float(mass),
                    balance_division_g=division,
                    sent=Sent(entry_id=self.entry_id(f"weighing {bench} {mark}")),
                    sender=Sender(by="teacher"),
                    at=self._begins - timedelta(minutes=20),
                )

    def _target(self, bench: str) -> Target:
        if bench not in self._benches:
            self._benches[bench] = bench_id_of(self._database, self._lesson_id, bench)
        return Target(lesson_id=self._lesson_id, bench_id=self._benches[bench])

    def _how(self, entry: Seed, at: datetime) -> dict[str, Any]:
        late_s = float(entry.get("late_s", 0))
        replaces = entry.get("replaces")
        tablet = self._tablets.get((entry["bench"], entry.get("tablet", "first")))
        by = entry.get("by", "bench")
        return {
            "sent": Sent(
                entry_id=self.entry_id(name_of(entry)),
                tablet_time=at - timedelta(seconds=late_s),
                age_s=late_s,
                replaces=self.entry_id(replaces) if replaces else None,
                reason=entry.get("reason"),
            ),
            "sender": Sender(by=by, tablet_id=tablet if by == "bench" else None),
            "at": at,
        }

    def _cord(self, entry: Seed) -> str | None:
        return self.entry_id(entry["specimen"]) if "specimen" in entry else None

    def _take(self, entry: Seed, at: datetime) -> None:
        target = self._target(entry["bench"])
        bench = lesson_record(self._database, self._lesson_id).bench(entry["bench"])
        if bench is not None and bench.here and entry.get("tablet", "first") == "first":
            return
        code = slip_codes(self._database, self._lesson_id)[target.bench_id or ""]
        joined = joining.take_bench(self._database, code, bench=None, at=at)
        self._tablets[entry["bench"], entry.get("tablet", "first")] = joined.tablet_id

    def _measure(self, entry: Seed, at: datetime) -> None:
        seen = readings.MeasureSeen(
            specimen_id=self._cord(entry), quantity=entry["quantity"], typed=entry["typed"], unit=entry["unit"]
        )
        readings.take_measure(self._database, self._target(entry["bench"]), seen, **self._how(entry, at))

    def _reading(self, entry: Seed, at: datetime) -> None:
        seen = readings.ReadingSeen(
            specimen_id=self._cord(entry),
            step=entry["step"],
            phase=entry["phase"],
            pointer_typed=entry["typed"],
            pointer_unit=entry.get("unit", "mm"),
            waited_s=entry.get("waited_s"),
        )
        readings.take_reading(self._database, self._target(entry["bench"]), seen, **self._how(entry, at))

    def _event(self, entry: Seed, at: datetime) -> None:
        seen = readings.EventSeen(
            specimen_id=self._cord(entry),
            step=entry["step"],
            kind=entry["kind"],
            after_reading=entry.get("after_reading", False),
            mark=entry.get("mark"),
        )
        readings.tell_event(self._database, self._target(entry["bench"]), seen, **self._how(entry, at))

    def _ending(self, entry: Seed, at: datetime) -> None:
        said = {name: entry[name] for name in ("fail_step", "hung_s", "place", "look", "remark") if name in entry}
        seen = readings.EndingSeen(specimen_id=self._cord(entry), kind=entry["kind"], **said)
        readings.tell_ending(self._database, self._target(entry["bench"]), seen, **self._how(entry, at))

    def _fresh_cord(self, entry: Seed, at: datetime) -> None:
        readings.fresh_cord(
            self._database,
            self._target(entry["bench"]),
            same_maker=entry.get("same_maker"),
            reason=entry.get("reason"),
            **self._how(entry, at),
        )

    def _ruling(self, entry: Seed, at: datetime) -> None:
        rulings.rule(
            self._database,
            self._target(entry["bench"]),
            kind=entry["kind"],
            about=self._about(entry["about"]),
            detail=entry.get("detail"),
            **self._how(entry, at),
        )

    def _about(self, name: str) -> str:
        """The id of what a ruling is about: an entry's own, or that of a cord that was made with its bench."""
        if name not in self.seed["cords"]:
            return self.entry_id(name)
        word, number = self.seed["cords"][name]
        bench = lesson_record(self._database, self._lesson_id).bench(word)
        return next(cord.entry_id for cord in (bench.specimens if bench else ()) if cord.specimen_no == number)

    def _stage(self, entry: Seed, at: datetime) -> None:
        asked = {name: value for name, value in entry.items() if name not in ("at_s", "do")}
        running.set_stage(self._database, self._lesson_id, asked, at=at)

    def _bench(self, entry: Seed, at: datetime) -> None:
        lesson = lesson_record(self._database, self._lesson_id)
        bench = lesson.bench(entry["bench"])
        asked = {"kind": entry["kind"], "open_again": entry["open_again"]}
        if bench is not None:
            running.change_bench(self._database, lesson, bench, asked, at=at)

    def _shelf(self, _entry: Seed, at: datetime) -> None:
        running.put_on_shelf(self._database, self._lesson_id, on_shelf=True, own=False, at=at)
