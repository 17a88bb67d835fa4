#!/usr/bin/env python3
"""Draws the same ballot with reportlab that Evenhand has just drawn, and says how long it took.

The bench of kiosk/print writes every line of text, rule and oval of its ballot to a list (points,
origin bottom left), one shape a line, fields parted by tabs:

    page    width   length
    font    name    file
    rule    x       y       width   height
    oval    x       y       width   height  stroke
    text    font    size    x       baseline        words

Reading the list and the fonts is not timed: drawing and writing the file is.
Usage: reportlab_ballot.py LIST [ROUNDS]
"""

import io
import statistics
import sys
import time

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas


def read_list(path):
    """The pages of the list, each with its size and its shapes; fonts are registered."""
    pages = []
    with open(path, encoding="utf-8") as lines:
        for line in lines:
            kind, *fields = line.rstrip("\n").split("\t")
            if kind == "font":
                pdfmetrics.registerFont(TTFont(*fields))
            elif kind == "page":
                pages.append(((float(fields[0]), float(fields[1])), []))
            elif kind == "text":
                font, size, x, y, words = fields
                pages[-1][1].append((kind, font, float(size), float(x), float(y), words))
            else:
                pages[-1][1].append((kind, *map(float, fields)))
    return pages


def draw(pages):
    """The ballot as PDF bytes."""
    out = io.BytesIO()
    canvas = Canvas(out, pageCompression=1)
    for size, shapes in pages:
        canvas.setPageSize(size)
        for kind, *shape in shapes:
            if kind == "rule":
                canvas.rect(*shape, stroke=0, fill=1)
            elif kind == "oval":
                x, y, width, height, stroke = shape
                canvas.setLineWidth(stroke)
                canvas.ellipse(x, y, x + width, y + height)
            else:
                font, points, x, y, words = shape
                canvas.setFont(font, points)
                canvas.drawString(x, y, words)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def main():
    pages = read_list(sys.argv[1])
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 30
    if not pages or not any(shapes for _, shapes in pages):
        sys.exit("the list is empty")
    draw(pages)
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        size = len(draw(pages))
        times.append((time.perf_counter() - start) * 1000)
    times.sort()
    p95 = times[min(len(times) - 1, int(len(times) * 0.95))]
    print(f"median {statistics.median(times):.2f} ms, p95 {p95:.2f} ms, {size} bytes")


if __name__ == "__main__":
    main()
