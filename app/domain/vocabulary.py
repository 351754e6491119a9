"""The closed lists of the product, each code with the words that pages show."""

STAGES = {
    "preparing": "Preparing",
    "question": "The question",
    "making": "Making",
    "predicting": "What do you expect?",
    "zeroing": "Taking the zero",
    "testing": "Testing",
    "talking": "Talking",
    "tidying": "Tidying",
    "over": "Over",
}

PHASES = {
    "zero": "zero",
    "load": "load",
    "later": "later",
    "return": "back at the hanger",
    "hung_again": "hung again",
    "unload": "unloading",
    "pointer_put_back": "pointer put back",
}

EVENTS = {
    "knot_slipped": "knot slipped",
    "pointer_moved": "pointer slipped",
    "strand_went": "one strand broke",
    "support_moved": "support moved",
    "other_mass": "different {rung}",
    "necking_seen": "went white or thin",
    "still_moving": "still moving",
    "pause": "we paused",
    "resume": "we went on",
}
"""What a bench may tell; `{rung}` stands for the lesson's own rung word."""

CURVE_BREAKS = ("knot_slipped", "pointer_moved", "support_moved")
"""Events after which the curve goes on as a new section."""

ENDINGS = {
    "broke_adding": "broke while adding",
    "broke_waiting": "broke during the wait",
    "broke_returning": "broke on the way back",
    "did_not_break": "did not break",
    "touched_tray": "reached the tray",
    "knot_undone": "knot came undone",
    "out_of_time": "stopped by the clock",
    "stopped_for_safety": "stopped for safety",
}

OUTCOMES = {
    "broke_adding": "broke",
    "broke_waiting": "broke",
    "knot_undone": "slipped",
    "did_not_break": "held",
    "broke_returning": "held",
    "touched_tray": "stopped",
    "out_of_time": "stopped",
    "stopped_for_safety": "stopped",
}
"""What an ending counts as in a readings file."""

PLACES = {
    "free_length": "between the knots",
    "at_knot": "just at a knot",
    "in_knot": "inside a knot",
    "at_support": "at support or hook",
}

LOOKS = {
    "clean": "clean",
    "ragged": "ragged",
    "necked": "drawn out thin",
    "strand_then_rest": "one strand, then the rest",
    "unravelled": "unravelled",
}

RULINGS = (
    "left_out",
    "put_back",
    "counts",
    "note_answer",
    "straight_part",
    "sound_break",
    "shown",
)
TEACHER_RULINGS = ("sound_break", "shown")
NOTE_ANSWERS = ("fixed_it", "it_is_right", "not_sure")

REASONS = {
    "typed_wrong": "typed wrong",
    "read_wrong": "read wrong",
    "unit": "wrong unit",
    "other": "something else",
}

TOPICS = ("conclusion", "rethink", "refuse", "reduce", "reuse", "repair", "recycle")

FRONT_VIEWS = {
    "key": "Who is here",
    "question": "The question",
    "steps": "Steps only",
    "class_graph": "Class graph",
    "one_bench": "One bench",
    "blank": "Blank",
}

GRAPH_VIEWS = ("benches", "one_bench")

SHAPES = ("straight", "bends_over", "bends_up", "s_shaped")
DEPTHS = {"first": "ages 11 to 14", "second": "ages 14 to 16", "third": "ages 16 to 18"}
SCALE_UNITS = {"mm": 1.0, "cm": 10.0}
"""Length units of a scale, each with its millimetres."""
SCALE_WAYS = {"down": "downward", "up": "upward"}
BENCH_KINDS = ("class", "catch_up", "pilot")
LAY_UPS = {
    "strip": "one strip",
    "bundle": "bundle",
    "twist": "twisted",
    "plait_flat": "flat plait",
    "plait_round": "round plait",
}
DIRECTIONS = {"along": "along", "across": "across", "bias": "45°", "not_known": "not known"}
END_FIXINGS = ("knot", "bar")
VARIABLE_ROLES = ("changed", "measured", "kept", "not_controlled")
MATERIAL_FORMS = ("tube", "sheet")
SEAMS = ("bottom", "sides", "none")
PRINTED_KINDS = ("net", "drained", "gross", "none")
WRITERS = ("bench", "teacher", "paper")

QUANTITIES = {
    "free_length_mm": ("between the knots", "mm"),
    "strip_length_mm": ("strip length before plaiting", "mm"),
    "strip_width_mm": ("strip width", "mm"),
    "strands": ("strips", ""),
    "cord_mass_g": ("mass of the cord", "g"),
    "cord_length_mm": ("length of the cord weighed", "mm"),
    "crossings_per_100_mm": ("crossings in 100 mm", ""),
    "stack_layers": ("layers in the stack", ""),
    "stack_thickness_mm": ("thickness of the stack", "mm"),
    "sheet_area_mm2": ("area of the sheet weighed", "mm2"),
    "sheet_mass_g": ("mass of the sheet weighed", "g"),
    "support_height_mm": ("height of the support", "mm"),
    "drop_height_mm": ("height over the tray", "mm"),
    "room_c": ("room temperature", "C"),
}
"""Measures: code -> (words, the quantity's own unit)."""
COUNTS = ("strands", "stack_layers")
"""Measures that are counted, one by one."""

TICKS = {
    "goggles": "Goggles on",
    "stand": "Stand clamped",
    "tray": "Tray with cloth",
    "tape": "Tape line laid",
    "knots": "Both knots tight",
    "rungs_counted": "{rungs} counted",
    "rungs_back": "{rungs} back in the tray",
}
SET_UP_TICKS = ("goggles", "stand", "tray", "tape", "knots", "rungs_counted")
