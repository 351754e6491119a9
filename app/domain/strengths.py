"""What films were found to hold, each with its source: where an estimate begins, no promise of a sheet at hand."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class FilmStrength:
    """One film: at which stress it broke, least and most [MPa], along and across the way it was made."""

    film: str
    along_mpa: tuple[float, float]
    across_mpa: tuple[float, float]
    source: str


FILM_STRENGTHS = (
    FilmStrength(
        film="LDPE film, 40 and 60 µm",
        along_mpa=(18.5, 19.4),
        across_mpa=(20.1, 20.9),
        source="article PMC4554610, table 1",
    ),
    FilmStrength(
        film="LDPE sheet, 100 to 500 µm, least that is allowed",
        along_mpa=(13.7, 13.7),
        across_mpa=(10.8, 10.8),
        source="IS 2508:2016, as a supplier quotes it",
    ),
    FilmStrength(
        film="HDPE blown film, 13 µm",
        along_mpa=(90.0, 90.0),
        across_mpa=(41.0, 41.0),
        source="a maker's data sheet, by ASTM D882",
    ),
    FilmStrength(
        film="thin HDPE bag",
        along_mpa=(25.0, 60.0),
        across_mpa=(25.0, 60.0),
        source="planning value, from memory",
    ),
)
