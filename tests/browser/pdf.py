"""Reads a PDF as pages: `pdf.py FILE [FOLDER]` prints a line of JSON for each page, and with a
folder draws each page there as FOLDER/N.png.

Of each page: its size in millimetres, its text line by line, the names of its fonts, the greatest
difference between the red, green and blue of a point (0 where nothing is coloured), and how far what
is printed stays from the left, top, right and bottom edge, in millimetres.
"""

import ctypes
import json
import struct
import sys
import zlib

import pypdfium2
import pypdfium2.raw as raw

MM = 25.4 / 72
SCALE = 2  # pixels for a point


def fonts(text, count):
    names = set()
    for place in range(count):
        name = ctypes.create_string_buffer(256)
        flags = ctypes.c_int()
        if raw.FPDFText_GetFontInfo(text, place, name, 256, flags):
            names.add(name.value.decode(errors="replace"))
    return sorted(names - {""})


def png(width, height, pixels):
    def chunk(kind, data):
        body = kind + data
        return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))

    rows = b"".join(b"\0" + pixels[y * width * 3 : (y + 1) * width * 3] for y in range(height))
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


def read(page, picture):
    bitmap = page.render(scale=SCALE, rev_byteorder=True)
    width, height, step = bitmap.width, bitmap.height, bitmap.n_channels
    data = bytes(bitmap.buffer)
    rows = [data[y * bitmap.stride : y * bitmap.stride + width * step] for y in range(height)]
    red, green, blue = (b"".join(row[colour::step] for row in rows) for colour in range(3))
    points = {(0, 0, 0)} if red == green == blue else set(zip(red, green, blue))
    colour = max(max(abs(r - g), abs(g - b)) for r, g, b in points)
    white = b"\xff" * width
    lines = [green[y * width : (y + 1) * width] for y in range(height)]
    used = [y for y, line in enumerate(lines) if line != white]
    left = min((len(line) - len(line.lstrip(b"\xff")) for line in lines), default=width)
    right = min((len(line) - len(line.rstrip(b"\xff")) for line in lines), default=width)
    edges = [left, used[0] if used else height, right, height - 1 - used[-1] if used else height]
    if picture:
        pixels = bytearray(3 * width * height)
        pixels[0::3], pixels[1::3], pixels[2::3] = red, green, blue
        with open(picture, "wb") as file:
            file.write(png(width, height, bytes(pixels)))
    text = page.get_textpage()
    return {
        "size": [round(length * MM, 1) for length in page.get_size()],
        "lines": [line.strip() for line in text.get_text_bounded().splitlines()],
        "fonts": fonts(text, text.count_chars()),
        "colour": colour,
        "edges": [round(edge / SCALE * MM, 1) for edge in edges],
    }


def main(path, folder=None):
    for number, page in enumerate(pypdfium2.PdfDocument(path), start=1):
        print(json.dumps(read(page, folder and f"{folder}/{number}.png"), ensure_ascii=False))


main(*sys.argv[1:])
