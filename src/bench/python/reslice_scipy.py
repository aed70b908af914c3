"""Times scipy's trilinear map_coordinates on the planes of ResliceBenchmark; prints one line a plane:
name, median ms, fastest ms, sum of HU, pixels outside."""

import sys
import time

import numpy
from scipy.ndimage import map_coordinates

COLUMNS, ROWS, SLICES, SIDE, RUNS = (int(word) for word in sys.argv[1:6])
PLANES = [line.split() for line in sys.stdin if line.strip()]

i = numpy.arange(COLUMNS)[None, None, :]
j = numpy.arange(ROWS)[None, :, None]
k = numpy.arange(SLICES)[:, None, None]
volume = ((i * 7 + j * 13 + k * 29) % 2000 - 1000).astype(numpy.int16)

for name, *numbers in PLANES:
    origin, right, down = (numpy.array([float(x) for x in numbers[n : n + 3]]) for n in (0, 3, 6))
    x = numpy.arange(SIDE)
    places = origin[:, None, None] + down[:, None, None] * x[None, :, None] + right[:, None, None] * x[None, None, :]
    coordinates = places[::-1]
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        out = map_coordinates(volume, coordinates, order=1, output=numpy.float32, mode="constant", cval=numpy.nan)
        times.append(time.perf_counter() - start)
    times.sort()
    total = float(numpy.nansum(out, dtype=numpy.float64))
    print(name, 1000 * times[len(times) // 2], 1000 * times[0], total, int(numpy.isnan(out).sum()))
