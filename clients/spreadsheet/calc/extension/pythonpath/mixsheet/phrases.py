"""What the add-in itself says, in the user's language. What the service says is passed on as it is."""

# Every text that is not an answer begins with one of these; cells that use such a text pass it on and ask nothing.
WAITING = "#MIX? "
FAULT = "#MIX! "

_PHRASES = {
    "asking": ("asking ...", "wird gefragt ..."),
    "unreachable": (
        "No answer from {address} ({why}). Start it with: mixengine serve --http {host}. It is asked again by itself.",
        "Keine Antwort von {address} ({why}). Zu starten mit: mixengine serve --http {host}. Es wird von selbst wieder gefragt."),
    "refused": ("{address} does not answer sheets: {why}", "{address} antwortet Tabellen nicht: {why}"),
    "address": (
        "'{value}' is not the address of a service; name one such as http://127.0.0.1:7400.",
        "'{value}' ist keine Adresse eines Dienstes; zu nennen ist eine wie http://127.0.0.1:7400."),
    "silence": ("silent for {seconds} s", "{seconds} s lang stumm"),
    "number": ("{name}: '{value}' is not a number.", "{name}: '{value}' ist keine Zahl."),
    "whole": ("{name}: {value} is not a whole number.", "{name}: {value} ist keine ganze Zahl."),
    "shape": (
        "{name}: a range of {rows} x {columns} cells does not go with one of {other_rows} x {other_columns}; give the same rows and columns, or one cell.",
        "{name}: ein Bereich von {rows} x {columns} Zellen passt nicht zu einem von {other_rows} x {other_columns}; gleich viele Zeilen und Spalten oder eine Zelle angeben."),
    "parts": (
        "parts: {rows} x {columns} numbers do not go with {paints} paint names; give one number for each name.",
        "Teile: {rows} x {columns} Zahlen passen nicht zu {paints} Namen von Farben; zu jedem Namen eine Zahl angeben."),
    "names": ("paints: with parts, names stand in one row or one column.", "Farben: mit Teilen stehen die Namen in einer Zeile oder einer Spalte."),
    "colour": (
        "{name}: {value} is no colour; write #5a6b3c or lab:40,-12,20, or give three cells with L, a and b.",
        "{name}: {value} ist kein Farbton; zu schreiben ist #5a6b3c oder lab:40,-12,20, oder drei Zellen mit L, a und b."),
    "place": ("row and column are counted from 1.", "Zeile und Spalte werden ab 1 gezählt."),
    "empty": ("{name} is empty.", "{name} ist leer."),
    "large": ("{count} questions in one range; at most {most} fit.", "{count} Fragen in einem Bereich; höchstens {most} gehen."),
}


def phrase(language: str, which: str, /, **values) -> str:
    english, german = _PHRASES[which]
    return (german if language.startswith("de") else english).format(**values)


def is_message(value) -> bool:
    """Whether a cell's value is a waiting text or a fault, not an answer."""
    return isinstance(value, str) and value.startswith("#MIX") and value[4:6] in ("? ", "! ")
