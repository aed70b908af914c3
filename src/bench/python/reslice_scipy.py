"""Times scipy's trilinear map_coordinates for ResliceBenchmark.

Arguments: columns, rows, slices, side of the picture. Prints "ready", then for every line of standard input (origin,
right, down: nine numbers in voxels) one line: ms, sum of HU, pixels outside.
"""

import sys
import time

import numpy
from scipy.ndimage import map_coordinates

COLUMNS, ROWS, SLICES, SIDE = (int(word) for word in sys.argv[1:5])

i = numpy.arange(COLUMNS)[None, None, :]
j = numpy.arange(ROWS)[None, :, None]
k = numpy.arange(SLICES)[:, None, None]
volume = ((i * 7 + j * 13 + k * 29) % 2000 - 1000).astype(numpy.int16)
x = numpy.arange(SIDE)
print("ready", flush=True)

for line in sys.stdin:
    numbers = numpy.array([float(word) for word in line.split()])
    origin, right, down = (numbers[n : n + 3, None, None] for n in (0, 3, 6))
    coordinates = (origin + down * x[None, :, None] + right * x[None, None, :])[::-1]
    start = time.perf_counter()
    out = map_coordinates(volume, coordinates, order=1, output=numpy.float32, mode="constant", cval=numpy.nan)
    milliseconds = 1000 * (time.perf_counter() - start)
    print(milliseconds, float(numpy.nansum(out, dtype=numpy.float64)), int(numpy.isnan(out).sum()), flush=True)
