"""The numbered list of what the sums rest on; the page "Where the sums come from" prints it."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Source:
    """One standard, convention or guide, and what is taken from it."""

    key: str
    title: str
    says: str
    used_for: str


SOURCES = (
    Source(
        key="GUM 4.3.7",
        title="JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in measurement",
        says="A value known only to lie between two bounds, all alike likely, has the standard uncertainty of half "
        "their distance, divided by the square root of 3.",
        used_for="Masses read to one division of the balance, printed masses, pointer readings on a scale.",
    ),
    Source(
        key="GUM 5.1.2",
        title="JCGM 100:2008, the same guide, combined standard uncertainty",
        says="Uncertainties of independent quantities that are added go together as the root of the sum of squares.",
        used_for="The total mass of what hangs, the force, the extension.",
    ),
    Source(
        key="GUM 6.2.1",
        title="JCGM 100:2008, the same guide, expanded uncertainty",
        says="An interval of so many standard uncertainties to each side is said together with that number.",
        used_for="What a reading or an extension is good to: twice its standard uncertainty.",
    ),
    Source(
        key="CGPM 1901",
        title="3rd General Conference on Weights and Measures, 1901: declaration on the unit of mass and on weight",
        says="The conventional value of the acceleration of free fall is 980.665 cm/s2.",
        used_for="Force = mass x g, where a lesson does not say another g (9.8, 9.81, 10).",
    ),
    Source(
        key="ISO 527-1",
        title="ISO 527-1, Plastics: Determination of tensile properties, part 1: General principles",
        says="Strain is the increase in length over the length that it began with. (Cited from memory.)",
        used_for="Strain = extension / free length between the knots, counted under the settling load.",
    ),
    Source(
        key="Okabe and Ito 2008",
        title="Okabe, M. and Ito, K.: Color Universal Design, how to make figures that are friendly to everyone (2008)",
        says="A set of colours that stay apart for people with any common kind of colour vision.",
        used_for="The lines of the designs A to F; each has its own dash, marker and letter too.",
    ),
)

OWN = (
    ("Breaking force", "It held one load and broke under the next: the breaking force lies between the two. A cord "
     "that did not break gives \"more than\" the last load that it held."),
    ("After a knot slip", "The curve goes on as a new section: nothing is joined that was not seen."),
    ("Pointer put back", "Read before and after under the same load, the difference of the two is added from there "
     "on, and their uncertainty with it."),
)  # fmt: skip
"""Definitions of our own, said where the sums are said."""
