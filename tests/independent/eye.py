"""An eye of its own on a printed page: finds ovals and their fill with OpenCV, and with tesseract the
name beside each filled one. Shares no code with Evenhand, and knows nothing of where things stand.

    eye.py PAGE.pgm DPI LANGUAGES

Prints JSON: {"ovals": [{"x", "y", "filled", "text"}]} in pixels, in reading order; "text" is what
tesseract reads to the right of a filled oval, up to the edge of its box and down to the next oval.

How: an oval is a dark outline about 0.25 in wide and 0.13 in high (VVSG-style target size, stated in
the project's design) whose contour fills as much of its box as an ellipse does (pi/4).
"""

import json
import math
import subprocess
import sys

import cv2
import numpy

WIDTH, HEIGHT = 0.25, 0.13  # inches, to the middle of the outline
TOLERANCE = 0.15  # of width and height
LIKENESS = 0.06  # how far the share of the box may be from pi/4
FILLED = 0.5  # of the inside dark


def find_ovals(grey, dpi):
    """Boxes of ovals with the share of ink inside."""
    dark = (grey < 128).astype(numpy.uint8)
    contours, _ = cv2.findContours(dark, cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)
    found = []
    for contour in contours:
        x, y, w, h = cv2.boundingRect(contour)
        if abs(w / (WIDTH * dpi) - 1) > TOLERANCE or abs(h / (HEIGHT * dpi) - 1) > TOLERANCE:
            continue
        # Pixel centres make a contour half a pixel small on each side.
        share = cv2.contourArea(contour) / ((w - 1) * (h - 1))
        if abs(share - math.pi / 4) > LIKENESS:
            continue
        centre = (x + (w - 1) / 2, y + (h - 1) / 2)
        if any(abs(centre[0] - o["x"]) < w / 2 and abs(centre[1] - o["y"]) < h / 2 for o in found):
            continue  # the outline's inner edge after its outer one
        inside = numpy.zeros_like(dark)
        axes = (int(w * 0.36), int(h * 0.34))
        cv2.ellipse(inside, (int(centre[0]), int(centre[1])), axes, 0, 0, 360, 1, -1)
        ink = float(dark[inside == 1].mean())
        found.append({"x": centre[0], "y": centre[1], "w": w, "h": h, "ink": ink})
    found.sort(key=lambda oval: (oval["y"], oval["x"]))
    return found


def beside(oval, ovals, grey, dpi):
    """The part of the page that holds the words beside an oval."""
    top = int(oval["y"] - 0.1 * dpi)
    same_row = [o for o in ovals if abs(o["y"] - oval["y"]) < 0.05 * dpi and o["x"] > oval["x"]]
    left = oval["x"] + oval["w"] / 2
    # Ranks stand in one row of near ovals: the name is to the right of the last.
    for other in sorted(same_row, key=lambda o: o["x"]):
        if other["x"] - left < 0.5 * dpi:
            left = other["x"] + other["w"] / 2
    left = int(left + 0.03 * dpi)
    # The box's right edge: the first column that is dark over the whole height of the row.
    rows = slice(int(oval["y"] - 0.09 * dpi), int(oval["y"] + 0.09 * dpi))
    column = (grey[rows, left:] < 160).mean(axis=0) > 0.98
    edges = numpy.flatnonzero(column)
    right = left + int(edges[0]) if len(edges) else grey.shape[1]
    below = [
        o["y"]
        for o in ovals
        if o["y"] > oval["y"] + 0.1 * dpi and oval["x"] - 10 < o["x"] < right
    ]
    bottom = min([oval["y"] + 0.75 * dpi] + [y - 0.1 * dpi for y in below])
    # A ruled line across ends the box.
    strip = (grey[int(oval["y"]) : int(bottom), left : right - 4] < 200).mean(axis=1) > 0.9
    lines = numpy.flatnonzero(strip)
    if len(lines):
        bottom = oval["y"] + int(lines[0]) - 2
    return grey[top : int(bottom), left : right - 2]


def read(picture, languages):
    """What tesseract reads: the picture at twice its size with a white border."""
    large = cv2.resize(picture, None, fx=2, fy=2, interpolation=cv2.INTER_CUBIC)
    large = cv2.copyMakeBorder(large, 30, 30, 30, 30, cv2.BORDER_CONSTANT, value=255)
    _, png = cv2.imencode(".png", large)
    command = ["tesseract", "-", "-", "-l", languages, "--psm", "6", "--dpi", "400"]
    done = subprocess.run(command, input=png.tobytes(), capture_output=True, check=True)
    return " ".join(done.stdout.decode().split())


def main(path, dpi, languages):
    dpi = int(dpi)
    grey = cv2.imread(path, cv2.IMREAD_GRAYSCALE)
    if grey is None:
        raise SystemExit(f"{path} isn't a picture")
    ovals = find_ovals(grey, dpi)
    out = []
    for oval in ovals:
        filled = oval["ink"] > FILLED
        text = read(beside(oval, ovals, grey, dpi), languages) if filled else ""
        out.append({"x": oval["x"], "y": oval["y"], "filled": filled, "text": text})
    print(json.dumps({"ovals": out}))


if __name__ == "__main__":
    main(*sys.argv[1:])
