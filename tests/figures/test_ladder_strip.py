"""The ladder strip: light rungs are short, what is read is filled, the rung of now stands out."""

from app.figures.ladder_strip import ladder_strip


def test_light_is_short_and_read_is_filled() -> None:
    strip = ladder_strip([100.0, 100.0, 200.0], read=1, now=2)
    assert [bar.state for bar in strip.bars] == ["held", "now", "left"]
    assert strip.bars[0].height < strip.bars[2].height
    assert strip.words == "1 of 3 rungs hung and read"


def test_every_bar_stands_on_the_rail_within_the_strip() -> None:
    for pen in ("row", "wide"):
        strip = ladder_strip([1.0, None, 5_000.0], read=0, pen=pen)
        assert all(bar.y >= 0 and bar.y + bar.height <= strip.rail_y for bar in strip.bars)
        assert strip.bars[-1].x + strip.bars[-1].width <= strip.width


def test_a_ladder_without_rungs_is_drawn_too() -> None:
    assert ladder_strip([], read=3).bars == ()
