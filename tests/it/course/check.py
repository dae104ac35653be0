"""Prints what stands in the course package that the one argument names, as JSON.

Python's zipfile and ElementTree read it: an archive or XML that is not well-formed ends this.
"""

import json
import sys
import xml.etree.ElementTree as ElementTree
import zipfile

with zipfile.ZipFile(sys.argv[1]) as package:
    damaged = package.testzip()
    if damaged:
        sys.exit(f"damaged: {damaged}")
    files = [
        {"name": i.filename, "size": i.file_size, "crc": i.CRC, "date": i.date_time, "flags": i.flag_bits, "method": i.compress_type}
        for i in package.infolist()
    ]
    root = ElementTree.fromstring(package.read("imsmanifest.xml"))

# Every element: its name with its namespace, its attributes, its text, and where it stands.
elements = []


def walk(element, path):
    here = f"{path}/{element.tag}"
    elements.append({"path": here, "attributes": element.attrib, "text": (element.text or "").strip("\n")})
    for child in element:
        walk(child, here)


walk(root, "")
json.dump({"files": files, "elements": elements}, sys.stdout)
