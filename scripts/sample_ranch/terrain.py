"""The sample ranch's ground: a creek valley in rolling plains cut by draws, 10 m cells, metres above sea level."""
import math
import os
import random
import subprocess
import tempfile

from . import frame

CELL = 10.0  # metres in the grid
WEST, SOUTH, COLUMNS, ROWS = -400, -150, 710, 430  # design corner, cells


class _Noise:
    """Smooth value noise: random heights on a square lattice, blended by a quintic step."""

    def __init__(self, seed, step):
        chance = random.Random(seed)
        self.step = step
        self.wide = int(13000 / step) + 4
        self.at = [[chance.uniform(-1, 1) for _ in range(self.wide)] for _ in range(self.wide)]

    def __call__(self, x, y):
        x, y = 0.83 * x - 0.56 * y, 0.56 * x + 0.83 * y  # lattice turned away from north
        u, v = (x + 3600) / self.step, (y + 900) / self.step
        i, j = int(u), int(v)
        u, v = u - i, v - j
        u, v = u * u * u * (u * (6 * u - 15) + 10), v * v * v * (v * (6 * v - 15) + 10)
        low = self.at[j][i] * (1 - u) + self.at[j][i + 1] * u
        high = self.at[j + 1][i] * (1 - u) + self.at[j + 1][i + 1] * u
        return low * (1 - v) + high * v


def _valley(d):
    """Height above the creek's flood plain at d metres from the creek: channel, bottom, terrace, long rise."""
    height = -2.2 * max(0.0, 1 - d / 14) + 0.006 * min(d, 120)
    if d > 120:
        height += 3.4 * min(1.0, (d - 120) / 30)
    if d > 150:
        height += 0.034 * (min(d, 620) - 150)
    return height + (0.012 * (d - 620) if d > 620 else 0.0)


def _rolling(noises, x, y, d):
    ramp = min(1.0, max(0.0, (d - 90) / 350))
    broad, middle, small, rough = (n(x, y) for n in noises)
    breaks = min(1.0, max(0.0, (y - 2700) / 500)) * min(1.0, max(0.0, (2600 - x) / 500))
    butte = 42 * math.exp(-((x - 3900) ** 2 + 1.4 * (y - 2280) ** 2) / (2 * 165**2))
    return ramp * (17 * broad + 15 * middle + 2.4 * small) + breaks * 19 * rough + butte


def _incision(layout):
    """Cells cut down by a draw: {(column, row): metres}. Trails cross on fill, where the cut is shallow."""
    cut = {}
    for depth, line in layout.draws:
        whole, done = frame.length(line), 0.0
        for a, b in zip(line, line[1:]):
            step = math.dist(a, b)
            _cut_segment(cut, a, b, depth, (done / whole, (done + step) / whole))
            done += step
    for key in cut:
        p = _center(*key)
        near = min(frame.distance_to_line(p, t) for t in layout.trails.values())
        cut[key] *= min(1.0, 0.25 + 0.75 * max(0.0, near - 12) / 40)
    return cut


def _cut_segment(cut, a, b, depth, shares):
    reach = 70
    size = CELL / frame.SCALE
    first = [int((min(a[k], b[k]) - reach - (WEST, SOUTH)[k]) / size) for k in (0, 1)]
    last = [int((max(a[k], b[k]) + reach - (WEST, SOUTH)[k]) / size) for k in (0, 1)]
    deep = depth * min(1.0, 0.25 + 1.5 * (shares[0] + shares[1]) / 2)
    for row in range(max(0, first[1]), min(ROWS, last[1] + 1)):
        for column in range(max(0, first[0]), min(COLUMNS, last[0] + 1)):
            off = frame.distance_to_segment(_center(column, row), a, b)
            down = 1.4 * deep - 0.25 * max(0.0, off - 5)
            if down > cut.get((column, row), 0.0):
                cut[(column, row)] = down


def _center(column, row):
    size = CELL / frame.SCALE
    return (WEST + (column + 0.5) * size, SOUTH + (row + 0.5) * size)


def heights(layout):
    """Rows from north to south of heights rounded to 0.1 m."""
    noises = [_Noise(7, 1150), _Noise(8, 520), _Noise(9, 160), _Noise(10, 260)]
    cut = _incision(layout)
    creek_at = {}
    rows = []
    for row in reversed(range(ROWS)):
        line = []
        for column in range(COLUMNS):
            x, y = _center(column, row)
            if column not in creek_at:
                k = min(len(layout.creek) - 2, int((x + 400) / 40))
                a, b = layout.creek[k], layout.creek[k + 1]
                creek_at[column] = frame.between(a, b, (x - a[0]) / 40)[1]
            d = abs(y - creek_at[column]) * 0.94
            z = 812 - 0.0032 * x + _valley(d) + _rolling(noises, x, y, d) - cut.get((column, row), 0.0)
            line.append(round(z, 1))
        rows.append(line)
    return rows


def write(layout, path):
    """GeoTIFF, Float32, DEFLATE, with the unit metre in its tag."""
    east, north = frame.grid((WEST, SOUTH))
    with tempfile.TemporaryDirectory() as folder:
        text, virtual = os.path.join(folder, 'z.asc'), os.path.join(folder, 'z.vrt')
        with open(text, 'w') as out:
            out.write(f'ncols {COLUMNS}\nnrows {ROWS}\nxllcorner {east}\nyllcorner {north}\ncellsize {CELL}\n')
            out.writelines(' '.join(f'{z:.1f}' for z in line) + '\n' for line in heights(layout))
        subprocess.run(['gdal_translate', '-q', '-of', 'VRT', '-ot', 'Float32', '-a_srs', 'EPSG:32613', text, virtual],
                       check=True)
        with open(virtual) as file:
            xml = file.read()
        with open(virtual, 'w') as file:
            file.write(xml.replace('<SimpleSource>', '<UnitType>metre</UnitType>\n    <SimpleSource>', 1))
        subprocess.run(['gdal_translate', '-q', '-co', 'COMPRESS=DEFLATE', '-co', 'PREDICTOR=3', '-co', 'ZLEVEL=9',
                        '-co', 'TILED=YES', virtual, path], check=True)
