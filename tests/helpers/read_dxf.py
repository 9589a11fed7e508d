"""Prints what ezdxf finds in a DXF file, as JSON. Usage: read_dxf.py FILE"""

import json
import sys

import ezdxf

HEADER = ["$INSUNITS", "$MEASUREMENT", "$LIMMAX", "$EXTMAX"]


def plain(value):
    return list(value) if hasattr(value, "__iter__") and not isinstance(value, str) else value


def describe(entity):
    kind = entity.dxftype()
    facts = {
        "type": kind,
        "layer": entity.dxf.layer,
        "attributes": {key: plain(value) for key, value in entity.dxfattribs().items()},
    }
    if kind == "LWPOLYLINE":
        facts["points"] = [list(p) for p in entity.get_points("xyb")]
        facts["closed"] = entity.closed
    elif kind == "TEXT":
        facts["text"] = entity.plain_text()
    elif kind == "HATCH":
        facts["holes"] = len(entity.paths.paths) - 1
    elif kind == "DIMENSION":
        facts["measured"] = entity.get_measurement()
        facts["block"] = [describe(e) for e in entity.get_geometry_block()]
    return facts


def main(path):
    document = ezdxf.readfile(path)
    auditor = document.audit()
    print(
        json.dumps(
            {
                "errors": [e.message for e in auditor.errors],
                "fixes": [e.message for e in auditor.fixes],
                "version": document.dxfversion,
                "header": {name: plain(document.header.get(name)) for name in HEADER},
                "layers": {
                    l.dxf.name: {"colour": l.dxf.color, "lineType": l.dxf.linetype, "width": l.dxf.lineweight}
                    for l in document.layers
                },
                "lineTypes": {
                    l.dxf.name: [t.value for t in l.pattern_tags.tags if t.code == 49]
                    for l in document.linetypes
                },
                "styles": {s.dxf.name: s.dxf.font for s in document.styles},
                "dimensionStyles": {
                    d.dxf.name: {"factor": d.dxf.dimlfac, "height": d.dxf.dimtxt} for d in document.dimstyles
                },
                "entities": [describe(e) for e in document.modelspace()],
            }
        )
    )


main(sys.argv[1])
