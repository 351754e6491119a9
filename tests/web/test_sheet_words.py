"""What follows from a sheet, in sentences."""

import pytest

from app.services.following import Beside, Following
from app.web.lead.sheet_words import bench_sentence, compare_sentences, numbered, ranges


@pytest.fixture
def database_kind() -> str:
    """No row is looked at."""
    return "sqlite"


def beside(letter: str, *things: str, words: str = "", benches: int = 2) -> Beside:
    return Beside(letter=letter, things=things, words=words, benches=("Alder",) * benches)


def follows(*designs: Beside, comparable: tuple[tuple[str, ...], ...] = ()) -> Following:
    counts = [len(one.benches) for one in designs]
    return Following(
        steps=5,
        step_s=45,
        test_s=225,
        tray_kg=None,
        class_kg=None,
        top_n=None,
        settling_n=None,
        reading_mm=0.8,
        extension_mm=1.2,
        designs=designs,
        comparable=comparable,
        fewest=min(counts),
        most=max(counts),
        not_weighed=(),
    )


def test_a_star_says_what_may_be_compared() -> None:
    star = follows(
        beside("A"), beside("B", "strips"), beside("C", "strips"), beside("D", "cut"), comparable=(("B", "C"), ("D",))
    )
    assert compare_sentences(star) == [
        "B, C and D change one thing of A, so each can be compared with it.",
        "Of these, B and C change the same thing and can be compared with each other. "
        "In every other pair two things differ.",
        "A new strip count brings a new plait.",
    ]


@pytest.mark.parametrize(
    ("comparable", "told"),
    [
        ((("B",), ("C",), ("D",)), "B, C and D change different things: they can't be compared with each other."),
        ((("B", "E"), ("C", "D")), "Of these, B and E, or C and D change the same thing"),
        ((("B", "C", "D"),), ""),
    ],
)
def test_no_pair_that_differs_in_two_things_is_passed_over(comparable: tuple[tuple[str, ...], ...], told: str) -> None:
    letters = sorted(letter for letters in comparable for letter in letters)
    sentences = compare_sentences(
        follows(beside("A"), *(beside(letter, "cut") for letter in letters), comparable=comparable)
    )
    assert len(sentences) == 1 + bool(told)
    assert sentences[-1].startswith(told or "B, C and D change one thing of A")


def test_one_design_and_designs_that_can_t_be_compared() -> None:
    assert "Add a design" in compare_sentences(follows(beside("A")))[0]
    two = beside("B", "level", "cut", words="two things differ: level and cut")
    assert compare_sentences(follows(beside("A"), two, beside("C"))) == [
        "B: two things differ: level and cut. It can't be said which of them did it.",
        "C is made as A still.",
    ]


@pytest.mark.parametrize(
    ("benches", "words"),
    [
        ((2, 2), "Two benches a design: enough to ask, not to settle."),
        ((3, 3), "Three benches a design."),
        ((3, 2), "Two to three benches a design."),
        ((2, 1), "One bench alone makes B: one cord can't say how far alike cords differ."),
        ((2, 0), "No bench makes B yet. Share the benches out afresh."),
        ((12, 12), "12 benches a design."),
    ],
)
def test_how_many_benches_a_design(benches: tuple[int, int], words: str) -> None:
    assert bench_sentence(follows(beside("A", benches=benches[0]), beside("B", benches=benches[1]))) == words


@pytest.mark.parametrize(
    ("names", "words"),
    [(("bucket", "1", "2", "3", "7"), "bucket, 1 to 3, 7"), (("4",), "4"), ((), ""), (("1", "3"), "1, 3")],
)
def test_marks_in_words(names: tuple[str, ...], words: str) -> None:
    assert ranges(names) == words


def test_names_and_numbers_not_weighed_are_said_as_people_say_them() -> None:
    assert numbered(["bucket", *map(str, range(1, 19))]) == "the bucket, numbers 1 to 18"
    assert numbered(["9"]) == "number 9"
    assert numbered(["3", "4", "5", "9"]) == "numbers 3 to 5, 9"
    assert numbered([]) == ""
