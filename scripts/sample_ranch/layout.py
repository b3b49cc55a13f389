"""Fences, pastures, gates, trails, creek and draws of the sample ranch, in design metres."""
import math
import random

from . import frame

NODES = {
    'A0': (0, 0), 'A0b': (480, 0), 'A1': (1250, 0), 'A2': (1800, 0), 'A3': (3300, 10), 'A4': (4700, 20),
    'A5': (6600, 30), 'H1': (1250, 480), 'Hm': (1520, 475), 'H2': (1800, 470), 'T1': (500, 850), 'T2': (1505, 830),
    'B0': (-60, 1480), 'B1': (1500, 1400), 'Bm': (2050, 1370), 'B3': (3200, 1290), 'B4s': (4600, 1270),
    'B4': (4900, 1240), 'B5': (6630, 1200), 'C0': (-40, 2750), 'C1': (2000, 2680), 'Cn1': (2500, 2660),
    'C2': (3150, 2650), 'Cn2': (3500, 2640), 'C3': (4850, 2600), 'Cn3': (5050, 2610), 'C4': (6620, 2700),
    'D0': (30, 4150), 'D1': (2520, 4060), 'D2': (3540, 4010), 'D3': (5080, 4050), 'D4': (6570, 4080),
}

# Fences that follow the ground wander by this many metres; all others run straight within a metre or two.
WANDER = {('T1', 'T2'): 14, ('T2', 'B1'): 16, ('B0', 'B1'): 30, ('B1', 'Bm'): 22, ('Bm', 'B3'): 30,
          ('B3', 'B4s'): 32, ('B4', 'B5'): 24, ('Bm', 'C1'): 26, ('B4', 'C3'): 22, ('C0', 'C1'): 28,
          ('Cn1', 'D1'): 24, ('D0', 'D1'): 26, ('A3', 'B3'): 18, ('Cn3', 'D3'): 16}

# name: corners, then what the pasture is.
PASTURES = {
    'Corral Trap': ('A0b A1 H1 Hm T2 T1', dict(ground='tame', sacrifice='yes')),
    'Creek Meadow': ('A0 A0b T1 T2 B1 B0', dict(ground='meadow', target_p2o5_lb_ac=40)),
    'Home Flat': ('A2 A3 B3 Bm B1 T2 Hm H2', dict(ground='tame', target_p2o5_lb_ac=50, limit_p2o5_lb_ac=150)),
    'Hay Bottom': ('A3 A4 B4s B3', dict(feed='no', ground='meadow')),
    'Lower Creek': ('A4 A5 B5 B4 B4s', dict(ground='native')),
    'West Bench': ('B0 B1 Bm C1 C0', dict(ground='native')),
    'Plum Draw': ('Bm B3 C2 Cn1 C1', dict(ground='native')),
    'Butte': ('B3 B4s B4 C3 Cn2 C2', dict(ground='native', dose_bales_ac=3)),
    'East Rise': ('B4 B5 C4 Cn3 C3', dict(ground='tame')),
    'North Breaks': ('C0 C1 Cn1 D1 D0', dict(ground='native')),
    'Rye Field': ('Cn1 C2 Cn2 D2 D1', dict(ground='stubble', target_n_lb_ac=60)),
    'Long Draw': ('Cn2 C3 Cn3 D3 D2', dict(ground='native')),
    'Far Corner': ('Cn3 C4 D4 D3', dict(ground='tame')),
}
HOLES = {'Butte': ((3950, 1560), 125)}  # an old homestead, fenced out

# name: fence, share of its length, what else is known.
GATES = {
    'House gate': ('Hm', 'H2', 0.50, dict(minutes=2)),
    'Trap gate': ('A1', 'H1', 0.50, dict(minutes=2)),
    'Meadow gate': ('T1', 'T2', 0.30, {}),
    'West Bench gate': ('B0', 'B1', 0.45, {}),
    'North gate': ('C0', 'C1', 0.45, dict(minutes=4)),
    'Plum gate': ('Bm', 'B3', 0.15, {}),
    'Breaks gate': ('C1', 'Cn1', 0.50, dict(minutes=4)),
    'Notch gate': ('B3', 'C2', 0.50, {}),
    'Rise gate': ('B4', 'C3', 0.50, {}),
    'Far gate': ('Cn3', 'C4', 0.54, {}),
    'East yard gate': ('C4', 'D4', 0.45, dict(minutes=2)),
    'Bend gate': ('A3', 'B3', 0.34, {}),
    'Lower gate': ('A4', 'B4s', 0.22, {}),
    'Road gate': ('A4', 'A5', 0.60, dict(minutes=2)),
    'Hill gate': ('B4', 'B5', 0.40, dict(minutes=5)),
    'Draw gate': ('Cn2', 'C3', 0.50, {}),
    'Rye gate': ('Cn2', 'D2', 0.50, {}),
    'Stubble gate': ('Cn1', 'D1', 0.50, {}),
    'Corner gate': ('Cn3', 'D3', 0.50, dict(closed_from='01-20', closed_to='03-15')),
}

YARDS = {'Headquarters yard': (1600, 230), 'East yard': (6645, 3300)}

# name: surface, the way (points and gate names), what else is known.
TRAILS = {
    'County road': ('paved', [(-300, -40), (1520, -40), (3300, -38), (5850, -30), (6690, -30)], {}),
    'East county road': ('gravel', [(6690, -30), (6705, 1300), (6700, 3300), (6690, 4200)], {}),
    'Headquarters lane': ('gravel', [(1520, -40), (1530, 150), (1600, 230)], dict(speed_mph=8)),
    'East yard approach': ('gravel', ['East yard gate', (6645, 3300), (6700, 3300)], dict(speed_mph=8)),
    'Home lane': ('dirt', [(1600, 230), 'House gate', (1900, 800), (2010, 950), (2150, 1200), 'Plum gate',
                           (2300, 1600)], {}),
    'Plum trail': ('two_track', [(2300, 1600), (2380, 2000), (2420, 2450), 'Breaks gate', (2050, 2950),
                                 (1800, 3200)], {}),
    'Ridge trail': ('dirt', [(2300, 1600), (2850, 1900), 'Notch gate', (3600, 1900), (4300, 2000), 'Rise gate',
                             (5500, 2150), (5800, 2480), 'Far gate', (6000, 3000), (6400, 3250),
                             'East yard gate'], dict(speed_mph=9)),
    'Meadow trail': ('dirt', [(1600, 230), 'Trap gate', (900, 400), (740, 650), 'Meadow gate', (740, 980),
                              (690, 1260), 'West Bench gate'], {}),
    'Bench trail': ('two_track', ['West Bench gate', (780, 1900), (860, 2400), 'North gate', (1000, 3150),
                                  (1800, 3200)], {}),
    'Bottom trail west': ('dirt', [(1900, 800), (2600, 560), 'Bend gate', (3900, 330), 'Lower gate'], {}),
    'Bottom trail east': ('two_track', ['Lower gate', (5300, 230), 'Road gate', (5850, -30)],
                          dict(closed_from='03-01', closed_to='04-30')),
    'Hill trail': ('two_track', [(5300, 230), (5420, 760), 'Hill gate', (5550, 1700), (5500, 2150)],
                   dict(max_lb=28000)),
    'Draw trail': ('two_track', [(4300, 2000), (4130, 2320), 'Draw gate', (4180, 3000), (3900, 3280), 'Rye gate',
                                 (3050, 3350), 'Stubble gate', (1800, 3200)], {}),
    'Corner trail': ('two_track', [(4180, 3000), (4700, 3200), 'Corner gate', (5600, 3230), (6400, 3250)], {}),
}

_CREEK_BEND = [(-400, 1190), (0, 1160), (500, 1110), (1000, 1130), (1500, 1080), (2000, 960), (2600, 890),
               (3200, 780), (3800, 680), (4400, 620), (5000, 540), (5600, 490), (6200, 430), (6700, 390), (7100, 360)]

_DRAWS = [  # head first; depth in metres at the mouth
    (7.0, [(1240, 3950), (1400, 3550), (1330, 2750), (1250, 2150), (1350, 1650), (1300, 1120)]),
    (6.0, [(2950, 3100), (2780, 2500), (2650, 1950), (2720, 1420), (2760, 900)]),
    (9.0, [(4720, 3950), (4560, 3350), (4640, 2700), (4480, 2300), (4520, 1500), (4420, 640)]),
    (7.5, [(6230, 3800), (6180, 3000), (6280, 2300), (6150, 1500), (6060, 450)]),
    (6.5, [(300, 3700), (470, 3050), (250, 2300), (360, 1750), (400, 1120)]),
    (6.5, [(700, 3850), (880, 3500), (1180, 3380), (1370, 3200)]),
    (6.5, [(1900, 3950), (1720, 3600), (1420, 3480)]),
    (5.0, [(3420, 2350), (3100, 2150), (2690, 1800)]),
    (5.5, [(5450, 3800), (5150, 3620), (4700, 3520), (4590, 3400)]),
    (5.0, [(3750, 3750), (4080, 3450), (4540, 3250)]),
    (5.0, [(5250, 1850), (5700, 1620), (6160, 1560)]),
    (5.0, [(1750, 2350), (1560, 2120), (1270, 2050)]),
    (4.5, [(3500, 1500), (3560, 1050), (3480, 740)]),
]


def creek():
    """The creek from west to east; x only ever grows."""
    line = []
    x = _CREEK_BEND[0][0]
    while x <= _CREEK_BEND[-1][0]:
        line.append((x, creek_y(x)))
        x += 40
    return line


def creek_y(x):
    for a, b in zip(_CREEK_BEND, _CREEK_BEND[1:]):
        if x <= b[0]:
            return frame.between(a, b, (x - a[0]) / (b[0] - a[0]))[1] + 34 * math.sin(x / 71) + 12 * math.sin(x / 29)
    return _CREEK_BEND[-1][1]


def draws():
    """(depth at the mouth, winding line from head to mouth) of every draw."""
    chance = random.Random(41)
    result = []
    for depth, bends in _DRAWS:
        line = []
        for a, b in zip(bends, bends[1:]):
            pieces = max(2, round(math.dist(a, b) / 90))
            for i in range(pieces):
                x, y = frame.between(a, b, i / pieces)
                wander = 0 if i == 0 else 22
                line.append((x + chance.uniform(-wander, wander), y + chance.uniform(-wander, wander)))
        result.append((depth, line + [bends[-1]]))
    return result


def _wandering(a, b, name):
    chance = random.Random('fence ' + '-'.join(name))
    wander = WANDER.get(name, 1.5)
    pieces = max(1, round(math.dist(a, b) / (170 if wander > 2 else 420)))
    line = [a]
    for i in range(1, pieces):
        x, y = frame.between(a, b, i / pieces)
        line.append((x + chance.uniform(-wander, wander) / 2, y + chance.uniform(-wander, wander)))
    return line + [b]


class Layout:
    """Fences made once and shared by the pastures on both sides, with every gate a vertex of its fence."""

    def __init__(self):
        self.fences, self.gates = {}, {}
        for corners, _ in PASTURES.values():
            names = corners.split()
            for pair in zip(names, names[1:] + names[:1]):
                if pair[::-1] not in self.fences:
                    self.fences.setdefault(pair, None)
        for pair in self.fences:
            key = pair if pair in WANDER else pair[::-1] if pair[::-1] in WANDER else pair
            line = _wandering(NODES[key[0]], NODES[key[1]], key)
            self.fences[pair] = line if key == pair else line[::-1]
        for name, (a, b, share, _) in GATES.items():
            line = self.fence(a, b)
            at, point = frame.along(line, share)
            point = (round(point[0], 2), round(point[1], 2))
            pair = (a, b) if (a, b) in self.fences else (b, a)
            line.insert(at, point)
            line = [p for i, p in enumerate(line)
                    if i in (0, len(line) - 1) or p == point or math.dist(p, point) > 60]
            self.fences[pair] = line if pair == (a, b) else line[::-1]
            self.gates[name] = point
        self.creek, self.draws = creek(), draws()
        self.rings = {name: self._ring(corners.split()) for name, (corners, _) in PASTURES.items()}
        self.trails = {name: [self.gates[p] if isinstance(p, str) else p for p in way]
                       for name, (_, way, _) in TRAILS.items()}

    def fence(self, a, b):
        return list(self.fences[(a, b)]) if (a, b) in self.fences else self.fences[(b, a)][::-1]

    def _ring(self, corners):
        ring = []
        for a, b in zip(corners, corners[1:] + corners[:1]):
            ring += self.fence(a, b)[:-1]
        return ring + ring[:1]

    def pasture_of(self, point):
        return next((name for name, ring in self.rings.items() if frame.inside(point, ring)), None)

    def check(self):
        """Trails cross fences at gates only; gates lie on the fences; rings run anticlockwise and are simple."""
        at_gate = set(self.gates.values())
        for name, ring in self.rings.items():
            assert frame.area(ring) > 0, name
            sides = list(zip(ring, ring[1:]))
            assert not any(frame.cross(*s, *t) for i, s in enumerate(sides) for t in sides[:i]), name
            for trail, line in self.trails.items():
                for a, b in zip(line, line[1:]):
                    for c, d in sides:
                        assert not frame.cross(a, b, c, d), (trail, name, a, b)
                        for p in {a, b} - at_gate:
                            assert frame.distance_to_segment(p, c, d) > 20, (trail, name, p)
                        if at_gate.isdisjoint((c, d)):
                            assert frame.distance_to_segment(c, a, b) > 5, (trail, name, c)
