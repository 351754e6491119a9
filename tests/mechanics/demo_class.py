"""The invented demonstration class as its tablets told it, incidents and all; every name and figure is made up."""

from dataclasses import replace
from typing import Any

from app.domain.records import BenchRecord, LessonRecord, Reading, Ruling, SpecimenRecord
from tests.mechanics.cords import (
    a_bench,
    a_design,
    a_ladder,
    a_lesson,
    a_measure,
    a_reading,
    a_ruling,
    a_specimen,
    an_ending,
    an_event,
    changed,
    readings_of,
    weighed,
)

POUCHES_G = {
    "Alder": "99 102 102 98 207 197 200 205 200 198 197 204 194 198 200 204",
    "Hazel": "98 103 104 101 206 201 202 200 196 199 201 205 198 202 201",
    "Birch": "100 103 99 103 204 200 196 203 203 197 200 201",
    "Cedar": "102 95 99 101 202 198 203 201 197 199 205",
    "Maple": "100 104 97 102 202 204 197 195 204 204 203 204 196 197 203 199 202 203",
    "Rowan": "99 103 102 98 194 206 200 194 202 202 199 201 201 198 201 208 200 200",
    "Willow": "99 98 100 102 196 201 197 204 207 200 197",
    "Elder": "100 99 104 101 203 207 200 202 202 201 196",
    "Larch": "97 102 100 102 190 206 201 202 197 212 199 199",
    "Juniper": "97 100 102 101 204 203 205 195 198 198 200 204",
}
CLEAN_MM = {
    "Alder": "218 222 224 227 229 234 238 242 248 253 259 265 274 285 300 316",
    "Hazel": "224 227 231 232 235 242 244 252 257 265 273 282 296 310 335",
    "Birch": "223 226 230 233 235 241 248 257 264 274 288 307",
    "Cedar": "230 235 240 242 246 253 278 288 301 315 341",
    "Maple": "218 223 223 227 228 233 235 237 241 243 247 252 254 260 266 270 277 285 292",
    "Rowan": "237 241 244 245 248 253 256 260 263 270 274 280 287 296 303 314 330 350",
    "Willow": "235 240 244 250 253 261 273 284 299 319 347",
    "Elder": "183 189 194 200 205 217 231 248 267 296 342",
    "Larch": "235 240 249 256 262 268 280 294 311 331 361 405",
    "Juniper": "202 208 214 218 223 233 244 258 273 289 314 348",
}
"""Pointer readings, zero first; Cedar's from step 6 as its knot slipped, Larch's as the pouches really hung."""

DESIGNS = {"Alder": "A", "Hazel": "A", "Birch": "B", "Cedar": "B", "Maple": "C", "Rowan": "C", "Willow": "D"} | {
    "Elder": "D", "Larch": "E", "Juniper": "E"
}  # fmt: skip
FREE_LENGTH_MM = {"Alder": 300, "Hazel": 298, "Birch": 300, "Cedar": 298, "Maple": 298, "Rowan": 296, "Willow": 298} | {
    "Elder": 296, "Larch": 305, "Juniper": 298
}  # fmt: skip
DENSITY_G_PER_M = {"A": 1.479, "B": 0.884, "C": 2.074, "D": 1.479, "E": 1.479}
STRANDS = {"A": 3, "B": 2, "C": 4, "D": 3, "E": 3}


def clean(bench: str) -> tuple[Reading, ...]:
    return readings_of(CLEAN_MM[bench], specimen_id=bench)


def _cord(bench: str, readings: tuple[Reading, ...], **more: Any) -> SpecimenRecord:
    design = f"design-{DESIGNS[bench]}"
    broke = an_ending("broke_adding", len(CLEAN_MM[bench].split()), specimen_id=bench, place="at_knot", look="clean")
    facts: dict[str, Any] = {"entry_id": bench, "bench_id": f"bench-{bench}", "design_id": design, "endings": (broke,)}
    return a_specimen(**(facts | {"readings": readings} | more))


def hazel() -> SpecimenRecord:
    """After step 7 the pointer fell off; pinned again it read 14 mm less."""
    before, after = clean("Hazel")[:8], clean("Hazel")[8:]
    put_back = a_reading(7, 238, phase="pointer_put_back", specimen_id="Hazel")
    lower = tuple(replace(reading, pointer_mm=reading.pointer_mm - 14) for reading in after)
    moved = an_event("pointer_moved", 7, after_reading=True, specimen_id="Hazel")
    return _cord("Hazel", (*before, put_back, *lower), events=(moved,))


def elder() -> SpecimenRecord:
    """Steps 5 to 7 were typed as centimetres, then mended."""
    readings = list(clean("Elder"))
    for step in (5, 6, 7):
        right = readings[step]
        wrong = replace(right, pointer_mm=right.pointer_mm / 10, pointer_typed=f"{right.pointer_mm / 10:g}")
        readings[step] = wrong
        readings.append(changed(wrong, pointer_mm=right.pointer_mm, pointer_unit="cm", reason="unit"))
    return _cord("Elder", tuple(readings))


def juniper() -> tuple[SpecimenRecord, Ruling]:
    """A second tablet typed 259 for step 7; the teacher kept 258. Steps 8 to 12 arrived late, in any order."""
    row = clean("Juniper")
    other = a_reading(7, 259, specimen_id="Juniper")
    late = [row[step] for step in (10, 8, 9, 11)]
    return _cord("Juniper", (*row[:8], other, *late)), a_ruling("counts", row[7].entry_id)


def demo_class() -> LessonRecord:
    """The ten benches with their incidents mended as they should be."""
    alder = (
        *clean("Alder"),
        a_reading(4, 220, phase="return", specimen_id="Alder"),
        a_reading(10, 231, phase="return", specimen_id="Alder"),
        a_reading(10, 260, phase="hung_again", specimen_id="Alder"),
    )
    swapped = (an_event("other_mass", 3, mark=5), an_event("other_mass", 5, mark=3))
    nicked = _cord(
        "Willow",
        (a_reading(0, 229),),
        entry_id="Willow first",
        endings=(an_ending("broke_adding", 1, look="ragged"),),
    )
    fresh = _cord("Willow", clean("Willow"), specimen_no=2)
    second_tablet, keep = juniper()
    cords = {
        "Alder": (_cord("Alder", alder),),
        "Hazel": (hazel(),),
        "Birch": (_cord("Birch", clean("Birch")),),
        "Cedar": (_cord("Cedar", clean("Cedar"), events=(an_event("knot_slipped", 6),)),),
        "Maple": (_cord("Maple", clean("Maple"), endings=(an_ending("did_not_break"),)),),
        "Rowan": (_cord("Rowan", clean("Rowan"), events=(an_event("strand_went", 16, after_reading=True),)),),
        "Willow": (nicked, fresh),
        "Elder": (elder(),),
        "Larch": (_cord("Larch", clean("Larch"), events=swapped),),
        "Juniper": (second_tablet,),
    }
    benches = tuple(_bench(word, place, cords[word]) for place, word in enumerate(cords, 1))
    out = a_ruling("left_out", "Willow first", reason="nick in one strip", about_table="specimen")
    return a_lesson(
        *benches,
        designs=tuple(_design(letter) for letter in STRANDS),
        rungs=a_ladder(*[100.0] * 4, *[200.0] * 14),
        weighings=tuple(one for word in cords for one in _weighings(word)),
        rulings=(keep, out),
        gravity_m_per_s2=9.81,
    )


def _weighings(word: str) -> Any:
    hanger_g = 112 if word == "Birch" else 86
    return weighed(hanger_g, *(float(text) for text in POUCHES_G[word].split()), bench_id=f"bench-{word}")


def _design(letter: str) -> Any:
    return a_design(
        letter, strands=STRANDS[letter], layers=1, strip_width_mm=25.0, linear_density_g_per_m=DENSITY_G_PER_M[letter]
    )


def _bench(word: str, place: int, cords: tuple[SpecimenRecord, ...]) -> BenchRecord:
    measured = tuple(
        replace(cord, measures=(a_measure("free_length_mm", float(FREE_LENGTH_MM[word])),)) for cord in cords
    )
    kind = "catch_up" if word == "Birch" else "class"
    return a_bench(*measured, id=f"bench-{word}", word=word, place=place, kind=kind, design_id=cords[0].design_id)
