"""`ropewalk analyse` to read: golden texts of one small invented file at each depth, and what other files bring.

A golden text is what the command prints: `cd tests/cases/report; ropewalk analyse class.csv --depth first > first.txt`.
"""

from collections.abc import Sequence
from pathlib import Path

import pytest

from app.domain.vocabulary import DEPTHS
from app.services import analysing
from app.services.analysing import ReadingOptions, analyse
from app.services.report import report
from app.services.report_layout import WIDTH

CASES = Path(__file__).parents[1] / "cases" / "report"


def told(text: str, *, depth: str = "first", name: str = "class.csv", **options: float | str) -> str:
    return report(analyse(text.encode(), ReadingOptions(**options), depth=depth), name)  # type: ignore[arg-type]


def flat(text: str) -> str:
    """The words without their lines."""
    return " ".join(text.split())


def rows(specimen: str, pointers: Sequence[float], *, step_g: float = 200, then: str = "") -> str:
    return "".join(f"{specimen},{86 + step_g * step},{mm}{then}\n" for step, mm in enumerate(pointers))


@pytest.mark.parametrize("depth", DEPTHS)
def test_the_small_class_reads_as_it_did(depth: str) -> None:
    found = told((CASES / "class.csv").read_text(encoding="utf-8"), depth=depth)
    assert found == (CASES / f"{depth}.txt").read_text(encoding="utf-8")
    assert max(map(len, found.splitlines())) <= WIDTH


def test_an_empty_file_has_no_table_and_no_comparison() -> None:
    found = told("specimen,mass_g,pointer_mm\n")
    assert "0 cords, 0 readings, 0 designs" in found
    assert "- There are no readings in the file." in found
    assert "\nCords\n" not in found
    assert "nothing to compare" in found
    assert found.endswith("No look-again notes. Exit status 1 would mean some.\n")


def test_settings_say_where_they_are_from() -> None:
    text = "gravity_m_per_s2,scale_division_mm,specimen,mass_g,pointer_mm\n9.81,1,one,86,200\n9.8,5,two,86,200\n"
    found = flat(told(text, scale_division_mm=2.0, balance_division_g=5.0))
    assert "Gravity 9.81 m/s², from the file; 9.8 m/s², from the file" in found
    assert "Division of the scale 2 mm, as the option says" in found
    assert "The scale's numbers grow downward, by default" in found
    assert "Uncertainty of the masses balance in steps of 5 g, as the option says" in found
    assert "offset yield" not in found.casefold()


def test_many_values_of_one_setting_are_counted() -> None:
    text = "scale_division_mm,specimen,mass_g,pointer_mm\n" + "".join(f"{mm},c{mm},86,200\n" for mm in range(1, 8))
    assert "4 mm, from the file; and 3 others" in flat(told(text))


def test_the_uncertainty_of_the_masses_may_be_stated_in_part() -> None:
    found = told("specimen,mass_g,mass_u_g,pointer_mm\none,86,1,200\none,286,,205\n")
    assert "Uncertainty of the masses       from the file, for 1 of 2 readings" in found


def test_another_offset_is_said_at_the_third_depth() -> None:
    found = analyse(b"specimen,mass_g,pointer_mm\n", ReadingOptions(), depth="third", offset_strain_percent=2.5)
    assert "2.5 % of the free length, as the option says" in flat(report(found, "x"))


def test_columns_that_are_not_read_are_named() -> None:
    found = flat(told("specimen,mass_g,pointer_mm,weather\none,86,200,wet\n"))
    assert "Columns kept, not read weather" in found


def test_words_of_the_file_can_not_steer_a_terminal() -> None:
    text = 'specimen,design,mass_g,pointer_mm,left_out,we\u202eather\n"A\u202e\nb",A,86,200,"no\x1b[2J\x07",x\n'
    found = told(text, name="x\x1b[31m\ud800.csv")
    assert not {"\x1b", "\x07", "\u202e", "\ud800"} & set(found)
    assert found.startswith("x\ufffd[31m\ufffd.csv: 1 cord")


def test_long_words_wrap() -> None:
    text = "specimen,design,mass_g,pointer_mm\n" + "".join(f"{'Alder' * 30},{'D' * 70},86,{mm}\n" for mm in (200, 201))
    assert max(map(len, told(text, depth="second").splitlines())) <= WIDTH


def test_the_first_depth_names_few_cords_and_counts_the_rest() -> None:
    text = "specimen,mass_g,pointer_mm\n" + "".join(f"c{number},86,200\n" for number in range(9))
    assert "Needs four readings. (c0, c1, c2, c3, c4, c5 and 3 more)" in flat(told(text))


def test_readings_that_are_in_no_sum_are_said_with_their_reason() -> None:
    text = (
        "specimen,step,phase,turn,mass_g,pointer_mm,left_out\n"
        "one,0,zero,1,86,200,\none,1,load,1,286,205,differs\none,1,load,2,286,207,differs\none,2,load,1,486,212,matched\n"
        "one,3,load,1,686,219,=misread\none,4,load,1,886,225,ruled out\n"
    )
    found = flat(told(text))
    assert "one, step 1: in no sum: two numbers for one moment." in found
    assert "one, step 3: in no sum: =misread." in found
    assert "one, step 4: in no sum: another number counts." in found
    assert "step 2: in no sum" not in found


def test_a_pilot_bench_is_in_no_design() -> None:
    found = told("specimen,design,bench_kind,mass_g,pointer_mm\none,A,pilot,86,200\n", depth="second")
    assert "* one is a pilot bench's, so it is in no design." in found
    assert "one: design A, pilot bench, no end told" in found
    assert "No cord that counts names a design" in found


def a_repeated_class(levels: bool = False) -> str:
    """Six groups that made design A twice, one of them far from the others; three of them B once."""
    text = "specimen,mass_g,pointer_mm,design,group,repeat,outcome,fail_mass_g,level\n"
    for group in range(6):
        for repeat in (1, 2):
            steps = 4 if group == 0 else 9 + (group + repeat) % 2
            pointers = [200 + 8 * step for step in range(steps)]
            level = 3 if levels else ""
            text += rows(f"G{group}-{repeat}", pointers, then=f",A,G{group},{repeat},broke,{86 + 200 * steps},{level}")
    for group in range(3):
        level = 1 + group % 2 if levels else ""
        text += rows(
            f"G{group}-3", [200, 207, 214, 221, 228], then=f",B{group if levels else ''},G{group},3,broke,1086,{level}"
        )
    return text


def test_agreement_is_told_at_the_third_depth_and_a_group_beyond_its_line_named() -> None:
    found = told(a_repeated_class(), depth="third")
    said = flat(found[found.index("How well cords") :])
    assert "Repeatability" in said
    assert "Reproducibility" in said
    assert "G0 h \u22122" in said
    assert "lines: h ±1.93; k 2.23" in said
    assert "Beyond a line: G0. Look again at how these made or tested theirs." in said
    assert "How well cords" not in told(a_repeated_class(), depth="second")


def test_without_repeats_the_third_depth_says_so() -> None:
    text = "specimen,design,mass_g,pointer_mm\none,A,86,200\n"
    assert "No design was made and broken twice or more by at least three groups." in told(text, depth="third")


def test_a_numeric_variable_brings_its_line_from_the_second_depth_on() -> None:
    assert "One more of the changed variable" not in told(a_repeated_class(levels=True))
    assert "One more of the changed variable" not in told(a_repeated_class(), depth="second")
    found = flat(told(a_repeated_class(levels=True), depth="second"))
    assert "One more of the changed variable" in found
    assert "N for each one more" in found


def test_one_design_alone_is_compared_with_nothing() -> None:
    text = "specimen,design,mass_g,pointer_mm\none,A,86,200\ntwo,A,86,200\n"
    assert "Only one design has results, so there is nothing to compare." in flat(told(text))


def test_designs_of_one_group_are_named_together() -> None:
    text = "specimen,mass_g,pointer_mm,design,outcome,fail_mass_g\n" + "".join(
        rows(letter, [200, 208, 215], then=f",{letter},broke,686") for letter in "ABCD"
    )
    found = told(text)
    assert "  Not compared, because only one group has a result: A, B, C, D.\n" in found
    assert "A and B" not in found


def test_designs_without_a_breaking_force_are_not_compared() -> None:
    text = "specimen,design,mass_g,pointer_mm\none,A,86,200\ntwo,B,86,200\n"
    found = flat(told(text))
    assert "No two designs have a breaking force to compare yet." in found
    assert "The group is the unit" not in found


def test_only_the_breaking_force_is_compared_at_the_first_depth() -> None:
    found = {depth: told(a_repeated_class(), depth=depth) for depth in DEPTHS}
    assert "Stiffness:" not in found["first"]
    assert found["second"].index("Breaking force:\n") < found["second"].index("Stiffness:\n")
    assert "All designs together" in found["third"]
    assert "All designs together" not in found["second"]


def test_progress_is_told_of_many_cords_only(monkeypatch: pytest.MonkeyPatch) -> None:
    text = "specimen,mass_g,pointer_mm\n" + "".join(f"c{number},86,200\n" for number in range(7))
    said: list[str] = []
    found = analyse(text.encode(), ReadingOptions(), depth="second", progress=said.append)
    report(found, "x", said.append)
    assert said == []
    monkeypatch.setattr(analysing, "PROGRESS_CORDS", 3)
    report(analyse(text.encode(), ReadingOptions(), depth="second", progress=said.append), "x", said.append)
    assert said == [
        "3 of 7 cords worked out",
        "6 of 7 cords worked out",
        "3 of 7 cords written",
        "6 of 7 cords written",
    ]
