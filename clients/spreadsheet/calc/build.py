#!/usr/bin/env python3
"""Builds the Calc extension: the same bytes from the same sources, whatever the day and the machine.

    build.py FILE.oxt       packs the folder extension/
    build.py --generate     writes again what is made from functions.py: Cells.idl, Cells.rdb (by unoidl-write) and registry/CalcAddIns.xcu
"""

import os
import pathlib
import subprocess
import sys
import zipfile
from xml.sax.saxutils import escape, quoteattr

from functions import FUNCTIONS

HERE = pathlib.Path(__file__).resolve().parent
EXTENSION = HERE / "extension"
LANGUAGES = ("en", "de")
OFFICE = pathlib.Path(os.environ.get("MIXENGINE_OFFICE", "/usr/lib/libreoffice"))


def idl() -> str:
    methods = "\n".join(
        f"        com::sun::star::sheet::XVolatileResult {f.method}({', '.join(f'[in] any {p.name}' for p in f.parameters)});" for f in FUNCTIONS)
    return f"""// Made by build.py from functions.py.
module mixengine {{
    interface XCells {{
{methods}
    }};
    service Cells : XCells;
}};
"""


def add_ins() -> str:
    def prop(name, texts):
        values = "".join(f"<value xml:lang={quoteattr(language)}>{escape(text)}</value>" for language, text in zip(LANGUAGES, texts))
        return f"<prop oor:name={quoteattr(name)}>{values}</prop>"

    lines = ['<?xml version="1.0" encoding="UTF-8"?>', "<!-- Made by build.py from functions.py. -->",
             '<oor:component-data xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" '
             'oor:name="CalcAddIns" oor:package="org.openoffice.Office">',
             '<node oor:name="AddInInfo"><node oor:name="mixengine.Cells" oor:op="replace"><node oor:name="AddInFunctions">']
    for f in FUNCTIONS:
        lines += [f'<node oor:name="{f.method}" oor:op="replace">', prop("DisplayName", [f.name]), prop("Description", f.text),
                  '<prop oor:name="Category"><value>Add-In</value></prop>', '<node oor:name="Parameters">']
        for p in f.parameters:
            lines += [f'<node oor:name="{p.name}" oor:op="replace">', prop("DisplayName", p.shown), prop("Description", p.text), "</node>"]
        lines += ["</node>", "</node>"]
    return "\n".join([*lines, "</node></node></node>", "</oor:component-data>", ""])


def generate() -> None:
    (EXTENSION / "Cells.idl").write_text(idl(), encoding="utf-8")
    (EXTENSION / "registry" / "CalcAddIns.xcu").write_text(add_ins(), encoding="utf-8")
    compile_interface(EXTENSION / "Cells.idl", EXTENSION / "Cells.rdb")


def compile_interface(source: pathlib.Path, target: pathlib.Path) -> None:
    subprocess.run([OFFICE / "sdk/bin/unoidl-write", OFFICE / "program/types.rdb", OFFICE / "program/types/offapi.rdb", source, target], check=True)


def pack(target: pathlib.Path) -> None:
    files = sorted(path for path in EXTENSION.rglob("*") if path.is_file() and "__pycache__" not in path.parts)
    with zipfile.ZipFile(target, "w") as archive:
        for path in files:
            entry = zipfile.ZipInfo(path.relative_to(EXTENSION).as_posix(), (1980, 1, 1, 0, 0, 0))
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, path.read_bytes(), zipfile.ZIP_STORED)


if __name__ == "__main__":
    if sys.argv[1:] == ["--generate"]:
        generate()
    elif len(sys.argv) == 2 and sys.argv[1].endswith(".oxt"):
        pack(pathlib.Path(sys.argv[1]))
    else:
        sys.exit(__doc__)
