"""Map layers of the sample ranch other than fences: off-limits ground, water, shelter, soft ground, soil, fields."""
import math
import random

from . import frame
from .files import feature, write_csv, write_geojson, write_geopackage, write_shapefile
from .layout import GATES, HOLES, PASTURES, TRAILS, YARDS, creek_y

WATER = {'Home tank': (2500, 1130), 'Meadow creek access': (1000, creek_y(1000) + 18), 'Bench tank': (900, 2150),
         'Trap tank': (1050, 250), 'Plum tank': (2330, 2200), 'Butte tank': (4200, 1700),
         'East tank': (5800, 2200), 'Lower creek access': (5100, creek_y(5100) - 18), 'North tank': (1560, 3150),
         'Rye tank': (3000, 3200), 'Long Draw tank': (4330, 3130), 'Far tank': (5700, 3150)}


def _band(points, above, below):
    """A polygon along points whose x (or y) only grows: shifted one way and the other."""
    ring = [above(p) for p in points] + [below(p) for p in reversed(points)]
    return [ring + ring[:1]]


def _block(center, east, north, turn):
    corners = [(-east, -north), (east, -north), (east, north), (-east, north), (-east, -north)]
    c, s = math.cos(turn), math.sin(turn)
    return [[(center[0] + c * x - s * y, center[1] + s * x + c * y) for x, y in corners]]


def _pastures(layout):
    for name, (_, known) in PASTURES.items():
        rings = [layout.rings[name]]
        if name in HOLES:
            rings.append(frame.circle(*HOLES[name], corners=9))
        yield feature('Polygon', rings, name=name, **{'feed': 'yes', **known})


def _off_limits(layout):
    yield feature('LineString', layout.creek, name='Coulee creek', kind='water', setback_ft=100)
    yield feature('Polygon', [frame.circle((2860, 2260), 48, 14, 0.7)], name='Plum pond', kind='water', setback_ft=100)
    yield feature('Polygon', [frame.circle((5700, 3640), 60, 14, 0.6)], name='Far stock dam', kind='water',
                  setback_ft=100)
    yield feature('Polygon', [frame.circle((6330, 800), 95, 16, 0.6)], name='Lower slough', kind='wetland',
                  setback_ft=100)
    yield feature('Point', (1710, 390), name='Headquarters well', kind='well', setback_ft=100)
    yield feature('Point', (5230, 2430), name='East well', kind='well', setback_ft=100)
    yield feature('Polygon', _block((1430, 340), 9, 6, 0.1), name='House', kind='building', setback_ft=150)
    yield feature('Polygon', _block((1480, 200), 20, 8, 0.0), name='Barn and shop', kind='building', setback_ft=150)
    yield feature('Polygon', _block((3950, 1560), 7, 5, 0.4), name='Old homestead', kind='building', setback_ft=150)
    yield feature('LineString', [(3080, -60), (2940, 1000), (2590, 2100), (2330, 3000), (2200, 4200)],
                  name='Rural water line', kind='buried_line', setback_ft=15)
    yield feature('Point', (1000, 3480), name='Rock pile', kind='other', setback_ft=30)


def _trails(layout):
    names = dict(surface='surf', speed_mph='spd', max_lb='max_lb', closed_from='clsd_from', closed_to='clsd_to')
    for name, (surface, _, known) in TRAILS.items():
        fields = {names[k]: ({'surface': surface} | known).get(k) for k in names}
        yield feature('LineString', layout.trails[name], name=name, **fields)


def _shelter(layout):
    plum = [p for p in layout.draws[1][1] if 1500 < p[1] < 2420]
    yield feature('LineString', [(2430, 1215), (2680, 1200), (2920, 1190)], name='Home windbreak', height_ft=25)
    yield feature('LineString', [(5180, 2120), (5150, 1850), (5190, 1700)], name='East windbreak', height_ft=25)
    yield feature('Polygon', _band(plum, lambda p: (p[0] - 32, p[1]), lambda p: (p[0] + 30, p[1])), name='Plum brush',
                  height_ft=12)
    willows = [p for p in layout.creek if 100 < p[0] < 640]
    yield feature('Polygon', _band(willows, lambda p: (p[0], p[1] + 42), lambda p: (p[0], p[1] + 14)),
                  name='Meadow willows', height_ft=15)


def _soft(layout):
    for name, low, high in (('Upper creek bottom', -100, 3260), ('Lower creek bottom', 3240, 6750)):
        part = [p for p in layout.creek if low <= p[0] <= high]
        yield feature('Polygon', _band(part, lambda p: (p[0], p[1] + 105), lambda p: (p[0], p[1] - 105)), name=name)


def _soil(layout):
    """30 cores: rich by the gates where hay was piled, poor on the tops; a quarter over four years old."""
    chance = random.Random(5)
    names = [n for n in PASTURES if n != 'Hay Bottom']
    for i in range(30):
        pasture = names[i % len(names)]
        ring = layout.rings[pasture]
        low, high = (tuple(f(p[k] for p in ring) for k in (0, 1)) for f in (min, max))
        while True:
            p = (chance.uniform(low[0], high[0]), chance.uniform(low[1], high[1]))
            if frame.inside(p, ring) and frame.distance_to_line(p, ring) > 40:
                break
        near = min(math.dist(p, g) for g in layout.gates.values())
        rich = math.exp(-near / 220)
        year, old = ((2019 + i % 3, True) if i % 4 == 3 else (2023 + i % 4, False))
        yield feature('Point', p, name=f'Core {i + 1:02d}', date=f'{year}-{4 + i % 2:02d}-{5 + (7 * i) % 23:02d}',
                      n_ppm=round(chance.uniform(3, 9) + 14 * rich, 1), p_ppm=round(chance.uniform(4, 9) + 38 * rich, 1),
                      k_ppm=round(chance.uniform(150, 270) + 260 * rich), method='Bray-P1' if old else 'Olsen',
                      depth_in=6, lab='Lab one (invented)' if old else 'Lab two (invented)')
    yield feature('Polygon', _block((5950, 1750), 230, 160, 0.1), name='East Rise zone', date='2025-05-06', n_ppm=5.5,
                  p_ppm=6.8, k_ppm=205, method='Olsen', depth_in=6, lab='Lab two (invented)')


def write(layout, folder):
    def path(name):
        return f'{folder}/{name}'

    write_geojson(path('pastures.geojson'), _pastures(layout))
    write_geopackage(path('off_limits.gpkg'), _off_limits(layout))
    write_shapefile(path('trails.shp'), _trails(layout))
    write_csv(path('columns.csv'), 'role column in_file unit',
              [('trails', 'surface', 'surf', ''), ('trails', 'speed_mph', 'spd', 'mph'),
               ('trails', 'closed_from', 'clsd_from', ''), ('trails', 'closed_to', 'clsd_to', '')])
    write_geojson(path('gates.geojson'), [feature('Point', layout.gates[n], name=n, **g[3]) for n, g in GATES.items()])
    write_geojson(path('yards.geojson'), [
        feature('Point', YARDS['Headquarters yard'], name='Headquarters yard', capacity_bales=1400, all_weather='yes'),
        feature('Point', YARDS['East yard'], name='East yard', capacity_bales=1000, all_weather='no')])
    write_geojson(path('water.geojson'), [feature('Point', p, name=n) for n, p in WATER.items()])
    write_geojson(path('shelter.geojson'), _shelter(layout))
    write_geojson(path('soft.geojson'), _soft(layout))
    write_geojson(path('soil.geojson'), _soil(layout))
    tons = {'Hay Bottom': ((3950, 430), 420), 'Creek Meadow': ((300, 700), 180), 'East Rise': ((5900, 1900), 260),
            'Far Corner': ((5850, 3500), 240), 'Rye Field': ((2950, 3500), 150)}
    write_geojson(path('hay_fields.geojson'), [feature('Point', p, name=n, tons=t) for n, (p, t) in tons.items()])
