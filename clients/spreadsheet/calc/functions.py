"""The functions of the add-in, and everything that is said of them: the one table from which the interface (IDL) and the wizard's texts (xcu) are made.

A function keeps its English name in every language, so that sheets can be passed on; its descriptions are translated.
"""

from typing import NamedTuple


class Parameter(NamedTuple):
    """One parameter. `name` is the interface's own; the others are (English, German)."""

    name: str
    shown: tuple[str, str]
    text: tuple[str, str]


class Function(NamedTuple):
    """One function: its method in the interface, its name in a cell, and its wizard text."""

    method: str
    name: str
    text: tuple[str, str]
    parameters: tuple[Parameter, ...]


SHELF = Parameter(
    "shelf", ("shelf", "Regal"),
    ("The shelf; left out: the service's own default, home.", "Das Regal; ohne Angabe das übliche des Dienstes, home."))
PAINTS = Parameter(
    "paints", ("paints", "Farben"),
    ("A recipe such as 2 tarred rope + 1 kelp, or a column of recipes; with parts: the names of the paints.",
     "Ein Rezept wie 2 tarred rope + 1 kelp oder eine Spalte von Rezepten; mit Teilen: die Namen der Farben."))
PARTS = Parameter(
    "parts", ("parts", "Teile"),
    ("The parts of each paint; more rows beneath names in a row, or more columns beside names in a column, are more recipes.",
     "Die Teile jeder Farbe; weitere Zeilen unter Namen in einer Zeile, oder Spalten neben Namen in einer Spalte, sind weitere Rezepte."))
COLOUR = Parameter(
    "colour", ("colour", "Farbton"),
    ("#5a6b3c, lab:40,-12,20, three cells with L, a and b, or a column of such.",
     "#5a6b3c, lab:40,-12,20, drei Zellen mit L, a und b, oder eine Spalte davon."))
DROPS = Parameter(
    "drops", ("drops", "Tropfen"),
    ("The most drops in one recipe, 1 to 80; left out: 6.", "Die meisten Tropfen in einem Rezept, 1 bis 80; ohne Angabe 6."))
# Picked values are plain cells, which keep their stored values even in an office without this extension; array formulas do not.
ROW = Parameter(
    "row", ("row", "Zeile"),
    ("Gives one value instead of all: that of this row, counted from 1.", "Gibt statt aller Werte einen: den dieser Zeile, gezählt ab 1."))
COLUMN = Parameter(
    "column", ("column", "Spalte"), ("With row: the column of that value; left out: 1.", "Mit Zeile: die Spalte dieses Werts; ohne Angabe 1."))

FUNCTIONS = (
    Function(
        "hex", "MIX.HEX",
        ("The dried colour of a mix in a hiding layer, as a screen shows it (#rrggbb).",
         "Der getrocknete Farbton einer Mischung in deckender Schicht, wie ein Bildschirm ihn zeigt (#rrggbb)."),
        (PAINTS, PARTS, SHELF)),
    Function(
        "lab", "MIX.LAB",
        ("The dried colour of a mix as L, a, b (D65, 2 degrees), and the difference that the truth exceeds once in twenty. Four columns.",
         "Der getrocknete Farbton einer Mischung als L, a, b (D65, 2 Grad) und der Abstand, den die Wahrheit einmal in zwanzig übertrifft. Vier Spalten."),
        (PAINTS, PARTS, SHELF, ROW, COLUMN)),
    Function(
        "ramp", "MIX.RAMP",
        ("Steps from the first paint through the others, even to the eye, dark to light: recipe, colour, difference from the step before. Three columns.",
         "Für das Auge gleiche Stufen von der ersten Farbe durch die anderen, dunkel bis hell: Rezept, Farbton, Abstand zur Stufe davor. Drei Spalten."),
        (Parameter(
            "through", ("through", "Weg"),
            ("Two or more paints or recipes in cells beside each other, or in one text with > between.",
             "Zwei oder mehr Farben oder Rezepte in Zellen nebeneinander, oder in einem Text mit > dazwischen.")),
         Parameter("steps", ("steps", "Stufen"), ("2 to 64; left out: 6.", "2 bis 64; ohne Angabe 6.")),
         DROPS, SHELF, ROW, COLUMN)),
    Function(
        "match", "MIX.MATCH",
        ("The shelf's best recipe for a colour: recipe, its colour, its difference, and what stands in the way. Four columns.",
         "Das beste Rezept des Regals für einen Farbton: Rezept, sein Farbton, sein Abstand und was im Wege steht. Vier Spalten."),
        (COLOUR,
         Parameter("most", ("most paints", "höchstens Farben"), ("The most paints in the recipe, 1 to 3; left out: 3.", "Die meisten Farben im Rezept, 1 bis 3; ohne Angabe 3.")),
         DROPS, SHELF, ROW, COLUMN)),
    Function(
        "glaze", "MIX.GLAZE",
        ("The colour after some coats of a let-down paint over something.", "Der Farbton nach einigen Schichten einer verdünnten Farbe über etwas."),
        (Parameter("paints", ("recipe", "Rezept"), ("What is brushed on: a paint or a recipe, or a column of such.", "Was gestrichen wird: eine Farbe, ein Rezept oder eine Spalte davon.")),
         Parameter(
             "over", ("over", "über"),
             ("What lies beneath: a colour, the primer black, grey or white, or a recipe.", "Was darunter liegt: ein Farbton, die Grundierung black, grey oder white, oder ein Rezept.")),
         Parameter("coats", ("coats", "Schichten"), ("How many coats, 1 to 100; left out: 1.", "Wie viele Schichten, 1 bis 100; ohne Angabe 1.")),
         Parameter(
             "medium", ("medium", "Malmittel"),
             ("Parts of medium to one part of the recipe, 0 to 100; left out: 0.", "Teile Malmittel auf einen Teil des Rezepts, 0 bis 100; ohne Angabe 0.")),
         SHELF)),
    Function(
        "difference", "MIX.DIFFERENCE",
        ("How different two colours look (CIEDE2000): below 1 hardly, above 5 plainly.", "Wie verschieden zwei Farbtöne aussehen (CIEDE2000): unter 1 kaum, über 5 deutlich."),
        (Parameter("first", ("first", "erster"), COLOUR.text), Parameter("second", ("second", "zweiter"), COLOUR.text))),
    Function(
        "words", "MIX.WORDS",
        ("A colour in words: its lightness, its dullness, its hue.", "Ein Farbton in Worten: wie hell, wie stumpf, welcher Ton (englisch)."),
        (COLOUR,)),
)
