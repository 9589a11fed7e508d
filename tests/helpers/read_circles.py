"""Prints the circles of SVG sheets as JSON, a list for each file, y up. Usage: read_circles.py FILE..."""

import json
import sys
import xml.etree.ElementTree as tree

SVG = "{http://www.w3.org/2000/svg}"


def circles(path):
    root = tree.parse(path).getroot()
    height = float(root.get("viewBox").split()[3])
    return [
        {"x": float(c.get("cx")), "y": height - float(c.get("cy")), "r": float(c.get("r")), "layer": g.get("class")}
        for g in root.iter(SVG + "g")
        for c in g.iter(SVG + "circle")
    ]


print(json.dumps([circles(path) for path in sys.argv[1:]]))
