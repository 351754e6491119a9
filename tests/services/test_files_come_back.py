"""A lesson's class CSV, read again, is the ground that the lesson's own pages stand on."""

from app.mechanics.classwork import class_picture
from app.services.files import class_csv
from app.transfer.reading_options import ReadingOptions
from app.transfer.readings_file import read_readings
from tests.mechanics.demo_class import demo_class


def test_the_cords_of_the_invented_class_come_back_to_the_last_digit() -> None:
    picture = class_picture(demo_class())
    found = read_readings(class_csv(picture).encode(), ReadingOptions())
    assert found.cords == tuple(cord.tested for cord in picture.specimens if cord.points)
    assert not found.doubts
    assert not found.unknown


def test_a_row_is_named_by_the_entry_that_it_shows() -> None:
    picture = class_picture(demo_class())
    found = read_readings(class_csv(picture).encode(), ReadingOptions())
    shown = [tuple(point.reading.entry_id for point in cord.points) for cord in picture.specimens if cord.points]
    assert list(found.about) == shown
