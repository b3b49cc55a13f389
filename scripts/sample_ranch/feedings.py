"""What the sample ranch fed in two past winters and the start of this one: lines laid where lines are laid from
habit, within some 250 m of the gate."""
import datetime
import math
import random

from . import frame
from .files import feature, write_geojson
from .layout import HOLES

_DAY = datetime.timedelta(days=1)
# season: first day, last day, share of entered, gps (the rest is recalled), lots by herd
_SEASONS = [
    ('2024-11-20', '2025-04-20', 0.68, 0.00, ('Grass 2024', 'Alfalfa 2024', 'Grass 2024')),
    ('2025-11-20', '2026-04-20', 0.62, 0.33, ('Grass 2024', 'Alfalfa 2024', 'East grass 2025')),
    ('2026-11-15', '2027-01-10', 0.35, 0.65, ('Bottom grass', 'Alfalfa 2nd cut', 'East brome')),
]
# herd: days between, bales a feeding, rig, ways in (gate, pasture, share)
_HABITS = [
    ('Main cows', 1, 6, 'Shredder', [('House gate', 'Home Flat', 0.72), ('Plum gate', 'Home Flat', 0.20),
                                     ('West Bench gate', 'West Bench', 0.08)]),
    ('First-calf heifers', 1, 2, 'Loader unroller', [('Meadow gate', 'Creek Meadow', 0.80),
                                                     ('Trap gate', 'Corral Trap', 0.20)]),
    ('Late calvers', 2, 9, 'Trailer unroller', [('Rise gate', 'East Rise', 0.55), ('Far gate', 'East Rise', 0.10),
                                                ('East yard gate', 'Far Corner', 0.35)]),
]


def _place(layout, chance, gate, pasture):
    """A line of 150-400 m inside the pasture, off the creek, its middle within 250 m of the gate."""
    ring = layout.rings[pasture]
    while True:
        out, turn, run = (chance.uniform(0, 2 * math.pi), chance.uniform(0, 2 * math.pi), chance.uniform(160, 410))
        away = 60 + 180 * chance.random() ** 2
        x, y = gate[0] + away * math.cos(out), gate[1] + away * math.sin(out)
        dx, dy = run / 2 * math.cos(turn), run / 2 * math.sin(turn)
        a, b = (x - dx, y - dy), (x + dx, y + dy)
        if min(math.dist(gate, p) for p in (a, b)) < 45 or not all(frame.inside(p, ring) for p in (a, b)):
            continue
        if frame.crosses_line(a, b, ring) or min(frame.distance_to_line(p, ring) for p in (a, b)) < 15:
            continue
        if frame.crosses_line(a, b, layout.creek) or min(frame.distance_to_line(p, layout.creek) for p in (a, b)) < 40:
            continue
        hole = HOLES.get(pasture)
        if hole is None or frame.distance_to_segment(hole[0], a, b) > hole[1] + 15:
            return [a, b]


def _source(chance, entered, gps):
    draw = chance.random()
    return 'entered' if draw < entered else 'gps' if draw < entered + gps else 'recalled'


def _season(layout, chance, season, odd):
    first, last, entered, gps, lots = season
    first, last = datetime.date.fromisoformat(first), datetime.date.fromisoformat(last)
    for (herd, every, bales, rig, ways), lot in zip(_HABITS, lots):
        day = first + _DAY * (every - 1)
        while day <= last:
            gate, pasture, _ = chance.choices(ways, [w[2] for w in ways])[0]
            line = _place(layout, chance, layout.gates[gate], pasture)
            known = dict(date=str(day), herd=herd, pasture=pasture, lot=lot, bales=bales, rig=rig,
                         source=_source(chance, entered, gps))
            shape = odd.get((herd, str(day)), 'LineString')
            if shape != 'left out':
                yield _as(shape, line, known)
            day += _DAY * every


def _as(shape, line, known):
    if shape == 'Point':
        known = {k: v for k, v in known.items() if k != 'rig'}
        return feature(shape, frame.between(*line, 0.5), **known)
    if shape == 'Polygon':
        return feature(shape, [frame.circle(frame.between(*line, 0.5), 38, 10)], **known)
    return feature('LineString', line, **known)


def write(layout, folder):
    chance = random.Random(2027)
    odd = {('First-calf heifers', f'2025-02-{d:02d}'): 'Point' for d in (3, 4, 5, 6, 7)}
    odd |= {('First-calf heifers', '2026-01-18'): 'Polygon', ('Late calvers', '2026-12-22'): 'Point'}
    odd |= {('First-calf heifers', f'2024-11-{d:02d}'): 'left out' for d in range(20, 31)}
    odd |= {('Main cows', f'2025-04-{d:02d}'): 'left out' for d in range(16, 21)}
    features = [f for season in _SEASONS for f in _season(layout, chance, season, odd)]
    for first, last, herd, pasture, lot, bales, rig in (
            ('2024-11-20', '2024-11-30', 'First-calf heifers', 'Creek Meadow', 'Alfalfa 2024', 22, 'Loader unroller'),
            ('2025-04-16', '2025-04-20', 'Main cows', 'West Bench', 'Grass 2024', 30, 'Shredder'),
            ('2026-04-21', '2026-04-24', 'Late calvers', 'Far Corner', 'East grass 2025', 18, 'Trailer unroller')):
        features.append(feature('LineString', None, date_from=first, date_to=last, herd=herd, pasture=pasture, lot=lot,
                                bales=bales, rig=rig, source='recalled'))
    write_geojson(f'{folder}/feedings.geojson', features)
