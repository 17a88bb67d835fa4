#!/usr/bin/env python3
"""How long OpenCV takes to find the ovals of a side and their fill, from decoded pixels.

Finds closed outlines of an oval's shape (0.25 x 0.13 in) and the share of dark pixels inside each, many
times on one thread, and prints the milliseconds. It only finds ovals: no code, no comparison of the
print, no names. It shares nothing with Evenhand; the picture must be upright and 8.5 in wide.

Usage: opencv_read.py PICTURE.png
"""
import sys
import time

import cv2
import numpy as np

ROUNDS = 100
PAPER_WIDTH_INCHES = 8.5
OVAL_INCHES = (0.25, 0.13)


def find(picture):
    """The ovals of a grey picture, each with its middle, size and the share of dark pixels inside."""
    per_inch = picture.shape[1] / PAPER_WIDTH_INCHES
    wide, high = OVAL_INCHES[0] * per_inch, OVAL_INCHES[1] * per_inch
    _, dark = cv2.threshold(picture, 0, 255, cv2.THRESH_BINARY_INV | cv2.THRESH_OTSU)
    contours, tree = cv2.findContours(dark, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)
    ovals = []
    for at, contour in enumerate(contours):
        if tree[0][at][3] != -1:
            continue  # The inner edge of an outline: its outer edge is looked at.
        x, y, w, h = cv2.boundingRect(contour)
        if not (0.8 * wide < w < 1.35 * wide and 0.75 * high < h < 1.4 * high):
            continue
        # An ellipse fills pi/4 of its box. A word or a figure in that box does not, and its outer
        # edge is farther from the ellipse than a pixel or so.
        full = cv2.contourArea(cv2.convexHull(contour))
        if abs(full / (w * h) - np.pi / 4) > 0.08:
            continue
        points = contour[:, 0, :].astype(np.float64)
        cx, cy = x + (w - 1) / 2, y + (h - 1) / 2
        radius = np.hypot((points[:, 0] - cx) / (w / 2), (points[:, 1] - cy) / (h / 2))
        if np.mean(np.abs(radius - 1)) > 0.09:
            continue
        inside = np.zeros((h, w), np.uint8)
        rim = 0.02 * per_inch  # outline and half-grey pixels
        axes = (max(1, int(w / 2 - rim)), max(1, int(h / 2 - rim)))
        cv2.ellipse(inside, (w // 2, h // 2), axes, 0, 0, 360, 255, -1)
        patch = dark[y:y + h, x:x + w]
        fill = float(cv2.mean(patch, inside)[0] / 255)
        ovals.append({"x": cx + 0.5, "y": cy + 0.5, "width": w, "height": h, "fill": fill})
    ovals.sort(key=lambda oval: (round(oval["y"] / high), oval["x"]))
    return ovals


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    picture = cv2.imread(sys.argv[1], cv2.IMREAD_GRAYSCALE)
    if picture is None:
        sys.exit(f"{sys.argv[1]} is not a picture")
    cv2.setNumThreads(1)
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        ovals = find(picture)
        times.append((time.perf_counter() - start) * 1000)
    times.sort()
    print(f"ovals {len(ovals)}  fastest {times[0]:.2f} ms  median {times[ROUNDS // 2]:.2f} ms  "
          f"p95 {times[ROUNDS * 95 // 100]:.2f} ms")


if __name__ == "__main__":
    main()
