"""A QR code as one path of an SVG drawing, made here: nothing is asked of anyone else."""

from dataclasses import dataclass
from itertools import groupby

import segno


@dataclass(frozen=True, kw_only=True)
class QrPath:
    """The dark modules as an SVG path, one unit a module; `size` is how many modules a side has."""

    d: str
    size: int


def qr_path(address: str) -> QrPath:
    """The QR code of an address, each run of dark modules one stroke of the path."""
    matrix = segno.make_qr(address, error="m").matrix
    runs = []
    for y, row in enumerate(matrix):
        x = 0
        for dark, group in groupby(row):
            width = len(list(group))
            if dark:
                runs.append(f"M{x} {y}h{width}v1h-{width}z")
            x += width
    return QrPath(d="".join(runs), size=len(matrix))
