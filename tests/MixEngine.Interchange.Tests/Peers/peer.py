"""Reads and writes table files with other people's libraries: Python's csv and ElementTree, openpyxl, and Little CMS's CGATS reader.

usage: peer.py csv-read|csv-write|xlsx-read|xlsx-write|cgats-read|cxf-read FILE
Reading prints the content as JSON; writing takes JSON rows from standard input. Exit code 3: the library is not there.
"""
import json
import sys


def missing(what):
    print(what, file=sys.stderr)
    sys.exit(3)


def openpyxl():
    try:
        import openpyxl as library
        return library
    except ImportError:
        missing("openpyxl (Debian: python3-openpyxl) is not installed")


def csv_read(path):
    import csv
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.reader(file, strict=True))


def csv_write(path, rows):
    import csv
    with open(path, "w", encoding="utf-8-sig", newline="") as file:
        csv.writer(file, delimiter=";", quoting=csv.QUOTE_ALL).writerows(rows)


def xlsx_read(path):
    sheet = openpyxl().load_workbook(path, read_only=True).worksheets[0]
    return [["" if cell is None else cell for cell in row] for row in sheet.iter_rows(values_only=True)]


def xlsx_write(path, rows):
    book = openpyxl().Workbook()
    for row in rows:
        book.active.append(row)
    book.save(path)


def cgats_read(path):
    import ctypes
    try:
        lcms = ctypes.CDLL("liblcms2.so.2")
    except OSError:
        missing("Little CMS (Debian: liblcms2-2) is not installed")
    for name in ("cmsIT8LoadFromMem", "cmsIT8GetProperty", "cmsIT8GetDataRowCol"):
        getattr(lcms, name).restype = ctypes.c_void_p if name == "cmsIT8LoadFromMem" else ctypes.c_char_p
    errors = []
    log = ctypes.CFUNCTYPE(None, ctypes.c_void_p, ctypes.c_uint, ctypes.c_char_p)(lambda _, __, text: errors.append(text.decode()))
    lcms.cmsSetLogErrorHandler(log)
    with open(path, "rb") as file:
        data = file.read()
    handle = ctypes.c_void_p(lcms.cmsIT8LoadFromMem(None, data, len(data)))
    if not handle.value:
        raise SystemExit(f"Little CMS refuses the file: {errors}")
    lcms.cmsIT8TableCount.restype = ctypes.c_uint
    tables = []
    for number in range(lcms.cmsIT8TableCount(handle)):
        lcms.cmsIT8SetTable(handle, number)
        names = ctypes.POINTER(ctypes.c_char_p)()
        fields = lcms.cmsIT8EnumDataFormat(handle, ctypes.byref(names))
        sets = int(lcms.cmsIT8GetProperty(handle, b"NUMBER_OF_SETS"))
        rows = [[lcms.cmsIT8GetDataRowCol(handle, row, field).decode() for field in range(fields)] for row in range(sets)]
        tables.append({"fields": [names[i].decode() for i in range(fields)], "sets": rows})
    return tables


def cxf_read(path):
    import xml.etree.ElementTree as tree
    cc = "{http://colorexchangeformat.com/CxF3-core}"
    objects = []
    for item in tree.parse(path).getroot().iter(cc + "Object"):
        color = item.find(cc + "ColorValues")[0]
        objects.append({
            "id": item.get("Id"), "name": item.get("Name"), "kind": color.tag[len(cc):], "start": color.get("StartWL"),
            "text": (color.text or "").split(), "parts": [[part.get("WL") or part.tag[len(cc):], part.text] for part in color],
            "tags": {tag.get("Name"): tag.get("Value") for tag in item.iter(cc + "Tag")},
        })
    return objects


if __name__ == "__main__":
    command, path = sys.argv[1:]
    work = globals()[command.replace("-", "_")]
    if command.endswith("write"):
        work(path, json.load(sys.stdin))
    else:
        json.dump(work(path), sys.stdout)
