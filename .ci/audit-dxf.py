"""Reads every DXF below the folders named and audits it with a general DXF library: no error, and nothing it had to mend."""

import sys
from pathlib import Path

import ezdxf

files = [f for folder in sys.argv[1:] for f in sorted(Path(folder).rglob("*.dxf"))]
wrong = 0
for file in files:
    drawing = ezdxf.readfile(file)
    report = drawing.audit()
    kinds = {e.dxftype() for e in drawing.modelspace()}
    said = [f"{e.code}: {e.message}" for e in [*report.errors, *report.fixes]]
    if drawing.units != 4:
        said.append(f"units are {drawing.units}, not 4 (millimetres)")
    if not kinds or kinds - {"LINE", "ARC", "CIRCLE", "LWPOLYLINE"}:
        said.append(f"entities: {', '.join(sorted(kinds)) or 'none'}")
    for line in said:
        print(f"{file}: {line}", file=sys.stderr)
    wrong += bool(said)
print(f"{len(files)} DXF files audited by ezdxf {ezdxf.__version__}, {wrong} with complaints")
sys.exit(1 if wrong or not files else 0)
