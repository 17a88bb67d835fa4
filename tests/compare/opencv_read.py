#!/usr/bin/env python3
"""How long OpenCV takes to find the ovals of a side and their fill, from decoded pixels.

Runs what tests/independent/find_ovals.py does on a picture, many times on one thread, and prints the
milliseconds. It only finds ovals: no code, no comparison of the print, no names.

Usage: opencv_read.py PICTURE.png
"""
import pathlib
import sys
import time

import cv2

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "independent"))
from find_ovals import find  # noqa: E402

ROUNDS = 100


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
