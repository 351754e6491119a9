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
        key="GUM 4.3.4",
        title="JCGM 100:2008, the same guide, standard uncertainty from an interval",
        says="Half a 95 % interval of a normal distribution, divided by 1.96, is the standard uncertainty.",
        used_for="Reading an interval backwards: the u printed beside a figure is half its interval over 1.96.",
    ),
    Source(
        key="GUM 5.1.2",
        title="JCGM 100:2008, the same guide, combined standard uncertainty",
        says="Uncertainties of independent quantities that are added go together as the root of the sum of squares.",
        used_for="The total mass of what hangs, the force, the extension.",
    ),
    Source(
        key="GUM 5.1.6",
        title="JCGM 100:2008, the same guide, products and quotients",
        says="Of a product or quotient the relative uncertainties go together as the root of the sum of squares.",
        used_for="Tenacity, breaking length, stress, Young's modulus, take-up, thickness by weighing.",
    ),
    Source(
        key="GUM 5.2.2",
        title="JCGM 100:2008, the same guide, quantities that share an input",
        says="What two quantities share is counted once, by its covariance.",
        used_for="Loads that hang the same masses, differences of two loads, the work.",
    ),
    Source(
        key="GUM 6.2.1",
        title="JCGM 100:2008, the same guide, expanded uncertainty",
        says="An interval of so many standard uncertainties to each side is said together with that number.",
        used_for="What a reading or an extension is good to: twice its standard uncertainty.",
    ),
    Source(
        key="GUM G",
        title="JCGM 100:2008, the same guide, annex G, degrees of freedom",
        says="An interval that rests on few readings is Student's t times the uncertainty.",
        used_for="Every interval that rests on the scatter of a cord's own readings.",
    ),
    Source(
        key="GUM H.2",
        title="JCGM 100:2008, the same guide, annex H.2, results that share their readings",
        says="Uncertainty by first derivatives in every input, a shared one once.",
        used_for="Recovery: stretch and set share the zero.",
    ),
    Source(
        key="GUM H.3",
        title="JCGM 100:2008, the same guide, annex H.3, calibration of a thermometer",
        says="Least squares of a straight line with the standard uncertainties of slope and value.",
        used_for="The straight part: pointer on force. The sums are held to its printed digits by a test.",
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
        used_for="Strain = extension / free length between the knots, counted under the settling load; stress of a "
        "flat strip.",
    ),
    Source(
        key="ISO/TS 28037",
        title="ISO/TS 28037:2010, Determination and use of straight-line calibration functions, clause 6",
        says="Least squares of a straight line through values with stated uncertainties.",
        used_for="A straight part that someone chose.",
    ),
    Source(
        key="NIST StRD",
        title="NIST Statistical Reference Datasets: linear regression (Norris, NoInt1)",
        says="Data sets with certified slopes and standard errors.",
        used_for="The straight line is held to nine digits of them by a test.",
    ),
    Source(
        key="NIST 4.1.4.1",
        title="NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1 and 4.4.4.6",
        says="Least squares, and the test whether a line fits at all.",
        used_for="The trend of a number that was changed, as strips or width.",
    ),
    Source(
        key="NIST 7.4.3.3",
        title="NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3.3",
        says="One-way analysis of variance: scatter within sets and between them.",
        used_for="How far cords of one design scatter, taken from all designs.",
    ),
    Source(
        key="NIST 7.4.7.1",
        title="NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.7.1",
        says="Tukey's procedure, for sets of unequal size after Kramer: all pairs of means compared at once.",
        used_for="Whether two designs are called different. When and at which level: our own simulation.",
    ),
    Source(
        key="Fisher 1935",
        title="R. A. Fisher, The Design of Experiments (1935), section 21",
        says="If two sets are alike, every way to deal the values out is as likely as the one seen.",
        used_for="The exact chance of luck for one pair, and for all designs together.",
    ),
    Source(
        key="Bonferroni",
        title="C. E. Bonferroni's inequality",
        says="Several tests share one rate of false alarms when each takes its part of it. (Cited from memory.)",
        used_for="Which returns to the hanger did not come back.",
    ),
    Source(
        key="ASTM D882 A1",
        title="ASTM D882, Tensile properties of thin plastic sheeting, annex A1: toe compensation",
        says="The straight part is carried back to no load; from there the stretch is counted. (Cited from memory.)",
        used_for="Slack and corrected zero; secant stiffness.",
    ),
    Source(
        key="ISO 6892-1",
        title="ISO 6892-1, Metallic materials: Tensile testing at room temperature",
        says="Proof strength: the straight part, shifted by a stated strain, meets the curve. (Cited from memory.)",
        used_for="Offset yield, with the strain that the lesson states: 1 % where it states none.",
    ),
    Source(
        key="ISO 4591",
        title="ISO 4591, Plastics: Film and sheeting, thickness by weighing",
        says="Mass over density and area gives the mean thickness. (Cited from memory.)",
        used_for="Thickness of a film, when nobody has a micrometer.",
    ),
    Source(
        key="ISO 7211-3",
        title="ISO 7211-3, Textiles: Woven fabrics, crimp of yarn",
        says="How much longer a yarn is than its way through the cloth. (Cited from memory.)",
        used_for="Take-up of a plait, which divides by the strip's length instead.",
    ),
    Source(
        key="ISO 1144",
        title="ISO 1144, Textiles: Universal system for designating linear density (tex system)",
        says="1 tex is 1 gram in 1000 metres. (Cited from memory.)",
        used_for="Linear density, newtons for each gram in a metre, tenacity in cN/tex.",
    ),
    Source(
        key="Breaking length",
        title="Breaking length, as the yarn and paper trades define it",
        says="The length of a thread that would break under its own weight. (Cited from memory.)",
        used_for="Breaking length = breaking force / (linear density x g).",
    ),
    Source(
        key="Trapezium rule",
        title="The trapezium rule, textbook",
        says="The area under readings joined by straight lines is a sum of trapezia.",
        used_for="Work up to the last reading, energy lost in a loop.",
    ),
    Source(
        key="Nelson 1982",
        title="W. Nelson, Applied Life Data Analysis (1982), chapter 9",
        says="Results known only between two ends, or from below, have a likelihood like any other. (Cited from "
        "memory.)",
        used_for='The breaking force as an interval or "more than", and the typical one of a design.',
    ),
    Source(
        key="Turnbull 1976",
        title="B. W. Turnbull, J. R. Statist. Soc. B 38 (1976) 290-295; steps by Y. Wang, B 69 (2007) 185-198",
        says="The spread of values known as intervals, without any assumed shape. (Cited from memory.)",
        used_for="Which share of a design's cords breaks where, from six groups on.",
    ),
    Source(
        key="ISO 5725-2",
        title="ISO 5725-2, Accuracy of measurement methods and results, part 2: repeatability and reproducibility",
        says="The scatter within a laboratory and between laboratories from one experiment. (Cited from memory.)",
        used_for="How well cords of one design agree within a group and between groups.",
    ),
    Source(
        key="ASTM E691",
        title="ASTM E691, Conducting an interlaboratory study to determine the precision of a test method",
        says="h and k: how far a laboratory's mean lies out, how far its results scatter. (Cited from memory.)",
        used_for="h and k of each group, and the lines that they are held against.",
    ),
    Source(
        key="Graybill and Wang 1980",
        title="F. A. Graybill and C.-M. Wang (1980), confidence intervals on sums of variances",
        says="An interval for a sum of variances. Holds where that of F. E. Satterthwaite (1946) falls short. (Cited "
        "from memory.)",
        used_for="The interval of the reproducibility.",
    ),
    Source(
        key="Chan, Golub and LeVeque 1983",
        title="T. F. Chan, G. H. Golub and R. J. LeVeque (1983), algorithms for the sample variance",
        says="A sum of squares that keeps its digits. (Cited from memory.)",
        used_for="Every scatter of cords and groups.",
    ),
    Source(
        key="WGS 84",
        title="NIMA TR8350.2, World Geodetic System 1984, equation 4-1 (Somigliana's formula)",
        says="Normal gravity at a latitude.",
        used_for="g, where a lesson gives its latitude.",
    ),
    Source(
        key="Own simulation",
        title="Our own simulation of made-up cords and classes, with fixed seeds, kept with the code",
        says="How often an interval holds the truth, how often a straight cord is called bent, an equal design "
        "different.",
        used_for='Thresholds of the straight part, of the limit of proportionality, of "different".',
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
    ("Limit of proportionality", "The force where the straight line and the bent part that fit the readings best meet, "
     "with every force at which they fit nearly as well."),
    ("Elastic limit", "It lies between the heaviest load that the cord came back from and the lightest that it did "
     "not come back from. \"Came back\" is always to within what could be seen."),
    ("Beyond the last reading", "Nobody reads the pointer in the step that breaks a cord. What that step adds to the "
     "work is shown apart, as if the last slope went on."),
    ("Bench first", "Cords of one design by one bench make one value: they share hands, scissors and reader."),
    ("Middle of the groups (median bracket)", "The median of the loads held, and the median of the loads that broke a "
     "cord, one of each a group."),
)  # fmt: skip
"""Definitions of our own, said where the sums are said."""
