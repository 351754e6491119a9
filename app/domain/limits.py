"""The sizes and ranges that the product takes; one home for form, API, column and message."""

from app.domain.errors import fault

CODE_ALPHABET = "ABCDEFGHJKMNPQRSTUVWXYZ23456789"
CODE_LENGTH = 6
WRONG_CODES_PER_MINUTE = 30
WRONG_PASSWORDS_PER_10_MIN = 10
WRITES_PER_MINUTE = 120
TABLET_DAYS = 30
TEACHER_TOKEN_HOURS = 12
PASSWORD_LEAST = 12
PASSWORD_MOST = 500

BODY_BYTES = 64 * 1024
FILE_BYTES = 10 * 1024 * 1024
FILE_ROWS = 200_000
TEXT_MOST = 500
TYPED_MOST = 20
BENCHES_MOST = 40
DESIGNS_MOST = 12
RUNGS_MOST = 60
SPECIMENS_MOST = 20
TABLETS_MOST = 4
ENTRIES_MOST = 400
"""Entries of one kind for one specimen."""

POINTER_MM = (-10_000.0, 10_000.0)
ONE_MASS_G = (0.1, 50_000.0)
TOTAL_MASS_G = 200_000.0
EXPECTED_N = (0.01, 10_000.0)
"""What a teacher may expect a cord to hold."""
GAUGE_LENGTH_MM = (1.0, 10_000.0)
STEP = (0, 60)
TURN = (1, 9)
AGE_S = (0.0, 30 * 86_400.0)
WAIT_S = (0, 3_600)
GRAVITY = (0.1, 30.0)
LATITUDE_DEG = (-90.0, 90.0)
DIVISION_MM = (0.01, 100.0)
JUDGEMENT_MM = (0.0, 100.0)
BALANCE_DIVISION_G = (0.001, 1_000.0)
ROOM_C = (-30.0, 60.0)
MEASURE_MOST = 1_000_000.0

QUANTITY_LIMITS = {
    "free_length_mm": GAUGE_LENGTH_MM,
    "cord_length_mm": GAUGE_LENGTH_MM,
    "strip_length_mm": (1.0, 100_000.0),
    "strip_width_mm": (0.1, 10_000.0),
    "strands": (1.0, 100.0),
    "cord_mass_g": (0.001, 50_000.0),
    "crossings_per_100_mm": (0.0, 1_000.0),
    "stack_layers": (1.0, 10_000.0),
    "stack_thickness_mm": (0.001, 10_000.0),
    "sheet_area_mm2": (1.0, 100_000_000.0),
    "sheet_mass_g": (0.001, 50_000.0),
    "support_height_mm": (0.0, 20_000.0),
    "drop_height_mm": (0.0, 20_000.0),
    "room_c": ROOM_C,
}


def within(field: str, value: float, bounds: tuple[float, float], unit: str = "") -> float:
    """The value itself; refused with a sentence when it lies outside the bounds."""
    low, high = bounds
    if low <= value <= high:
        return value
    after = f" {unit}" if unit else ""
    raise fault(field, f"That is outside what can be: {low:g} to {high:g}{after}.")
