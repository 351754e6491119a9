"""The invented lessons: loaded through the verbs, as typed and as mended; played; a cut load goes on."""

from datetime import UTC, datetime

import pytest

from app.services import running, seeding, teachers
from app.services.picture import see
from app.services.seed_script import Script, Seed
from app.store.database import Database

AT = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


@pytest.fixture
def taught(database: Database) -> Database:
    teachers.add_teacher(database, teachers.FIRST_NAME, password=None, at=AT)
    return database


def test_three_lessons_load_once(taught: Database) -> None:
    made = seeding.load_demo(taught, at=AT)
    assert made is not None
    assert seeding.load_demo(taught, at=AT) is None
    found = seeding.under_way(taught)
    assert found is not None
    assert found.id == made.lesson_id
    assert [bench.word for bench in found.benches if bench.here] == ["Alder", "Cedar", "Maple", "Willow", "Larch"]
    for lesson_id in (made.lesson_id, seeding.FINISHED):
        assert "(invented)" in see(taught, lesson_id).lesson.title


def test_incidents_end_as_they_should(taught: Database) -> None:
    seeding.load_demo(taught, at=AT)
    seen = see(taught, seeding.FINISHED)
    cords = {cord.name: cord for cord in seen.picture.specimens}
    forces = {
        (name, p.reading.step): p for name, cord in cords.items() for p in cord.points if p.reading.phase == "load"
    }
    assert cords["Willow-1"].left_out == "nick in one strip"
    assert [round(forces["Larch-1", step].force_n or 0, 2) for step in (3, 4, 5)] == [4.66, 5.66, 6.64]
    elder = forces["Elder-1", 6]
    assert (elder.first_typed, elder.reading.pointer_mm, elder.reason) == ("23.1", 231.0, "unit")
    states = {p.reading.pointer_typed: p.state for p in cords["Juniper-1"].points if p.reading.step == 7}
    assert states == {"258": "stands", "259": "ruled_out"}
    assert [p.reading.step for p in cords["Juniper-1"].counted] == list(range(12))
    maple = cords["Maple-1"].break_bracket
    assert (round(maple.low_n or 0, 2), maple.high_n) == (32.39, None)
    assert seen.lesson.bench("birch").kind == "catch_up"  # type: ignore[union-attr]


def test_a_cut_load_goes_on(taught: Database, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = Script.play
    played = 0

    def cut(script: Script, entry: Seed, at: datetime) -> None:
        nonlocal played
        played += 1
        if played == 150:
            raise KeyboardInterrupt
        whole(script, entry, at)

    monkeypatch.setattr(Script, "play", cut)
    with pytest.raises(KeyboardInterrupt):
        seeding.load_demo(taught, at=AT)
    assert not seeding.is_loaded(taught)
    monkeypatch.setattr(Script, "play", whole)
    assert seeding.load_demo(taught, at=AT) is not None
    picture = see(taught, seeding.FINISHED).picture
    assert [len(cord.points) for cord in picture.specimens] == [19, 16, 12, 11, 19, 18, 1, 11, 11, 12, 13]


def test_invented_benches_read_on_until_all_have_ended(taught: Database) -> None:
    made = seeding.fresh_copy(taught, at=AT)
    while seeding.play_one(taught, made.lesson_id, at=AT):
        pass
    cords = see(taught, made.lesson_id).picture.specimens
    assert [cord.ending.kind for cord in cords if cord.ending] == [
        "broke_adding",
        "broke_adding",
        "did_not_break",
        "broke_adding",
        "broke_waiting",
    ]
    running.set_stage(taught, made.lesson_id, {"stage": "over"}, at=AT)
    assert seeding.play_one(taught, made.lesson_id, at=AT) is None
