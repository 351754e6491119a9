from app.figures.lettering import cut_to, text_width


def test_digits_are_no_narrower_than_in_the_usual_sans() -> None:
    """The advance of a digit is 556 of 1000 in Arial and in Liberation Sans (their published metrics)."""
    assert text_width("0123456789", 24) >= 10 * 0.556 * 24


def test_a_word_that_fits_stays_and_one_that_does_not_ends_in_an_ellipsis() -> None:
    assert cut_to("Alder", 24, 200) == "Alder"
    cut = cut_to("Hawthornhawthornhawthorn", 24, 120)
    assert cut.endswith("…")
    assert text_width(cut, 24) <= 120
