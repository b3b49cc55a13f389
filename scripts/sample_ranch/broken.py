"""Tiny ranches, each with one known fault and an expected.txt: code, problem or error, a phrase of the message."""

import os
import subprocess
import tempfile

from . import frame
from .files import feature, geojson_text, write_csv, write_geopackage, write_text, write_vector

_SOUTH = [(0, 0), (200, 0), (400, 0), (400, 400), (200, 400), (0, 400), (0, 0)]
_NORTH = [(0, 400), (200, 400), (400, 400), (400, 800), (0, 800), (0, 400)]
_WAY = [(200, -60), (200, 0), (200, 200), (200, 400), (200, 600)]
_HERDS = 'herd head weight_lb stage pastures'
_HAY = 'lot yard kind bales bale_lb'
_RIGS = 'rig method bales_per_trip mass_lb pto_hp turn_radius_ft'


class Folder:
    """A sound tiny ranch of two square pastures; each fault changes one thing in it."""

    def __init__(self, path):
        self.path = path
        self.pastures = [feature('Polygon', [_SOUTH], name='South Pasture', ground='tame'),
                         feature('Polygon', [_NORTH], name='North Pasture', ground='native')]
        self.yards = [feature('Point', (200, -60), name='Stack yard')]
        self.gates = [feature('Point', (200, 0), name='South gate'), feature('Point', (200, 400), name='Middle gate')]
        self.trails = [feature('LineString', _WAY, name='Lane', surface='dirt')]
        self.herds = [('Cows', 50, 1300, 'mid_gestation', 'South Pasture;North Pasture')]
        self.hay = [('Grass', 'Stack yard', 'grass', 200, 1250)]
        self.rigs = [('Unroller', 'unroll', 2, 18000, 95, 24)]
        self.herd_columns = _HERDS
        self.extra = {}  # file name: text, or None to leave a file out

    def write(self, code, severity, phrase):
        for role in ('pastures', 'yards', 'gates', 'trails'):
            self._text(role + '.geojson', geojson_text(getattr(self, role)))
        for role, columns in (('herds', self.herd_columns), ('hay', _HAY), ('rigs', _RIGS)):
            if role + '.csv' not in self.extra:
                write_csv(f'{self.path}/{role}.csv', columns, getattr(self, role))
        for name, text in self.extra.items():
            self._text(name, text, True)
        write_text(f'{self.path}/expected.txt', f'{code}\n{severity}\n{phrase}\n')

    def _text(self, name, text, extra=False):
        if text is not None and (extra or name not in self.extra):
            write_text(f'{self.path}/{name}', text)


FAULTS = {}


def _fault(severity, phrase, code=None):
    def keep(change):
        FAULTS[change.__name__] = (change, code or change.__name__, severity, phrase)
        return change
    return keep


@_fault('error', 'pastures')
def missing_pastures(f):
    f.extra['pastures.geojson'] = None


@_fault('error', 'head')
def missing_required_column(f):
    f.herd_columns = 'herd weight_lb stage pastures'
    f.herds = [('Cows', 1300, 'mid_gestation', 'South Pasture;North Pasture')]


@_fault('error', 'weight_stone')
def unknown_unit(f):
    f.herd_columns = 'herd head weight_stone stage pastures'
    f.herds = [('Cows', 50, 93, 'mid_gestation', 'South Pasture;North Pasture')]


@_fault('problem', 'Nowhere', 'unknown_pasture')
def unknown_pasture_in_herds(f):
    f.herds = [('Cows', 50, 1300, 'mid_gestation', 'South Pasture;Nowhere')]


@_fault('problem', 'Lost yard', 'unknown_yard')
def unknown_yard_in_hay(f):
    f.hay.append(('Second grass', 'Lost yard', 'grass', 80, 1250))


@_fault('problem', 'swamp')
def unknown_enum_value(f):
    f.pastures[1]['properties']['ground'] = 'swamp'


@_fault('problem', 'lots')
def not_a_number(f):
    f.hay.append(('Second grass', 'Stack yard', 'grass', 'lots', 1250))


@_fault('problem', '-40')
def negative_number(f):
    f.hay.append(('Second grass', 'Stack yard', 'grass', -40, 1250))


@_fault('problem', '2027-02-30')
def bad_date(f):
    f.extra['moves.csv'] = 'herd,date,pasture\nCows,2027-02-30,North Pasture\n'


@_fault('problem', 'Unroller')
def duplicate_key(f):
    f.rigs.append(('Unroller', 'unroll', 3, 20000, 110, 26))


@_fault('error', 'pastures')
def two_sources_of_one_role(f):
    write_geopackage(f'{f.path}/pastures.gpkg', f.pastures)


@_fault('problem', 'North Pasture')
def self_crossing_polygon(f):
    bow = [(0, 400), (200, 400), (400, 400), (0, 800), (400, 800), (0, 400)]
    f.pastures[1]['geometry']['coordinates'] = [[frame.degrees(p) for p in bow]]


@_fault('problem', 'North Pasture')
def overlapping_pastures(f):
    ring = [(0, 350), (400, 350), (400, 800), (0, 800), (0, 350)]
    f.pastures[1] = feature('Polygon', [ring], name='North Pasture', ground='native')


@_fault('problem', 'North Pasture')
def pasture_without_gate(f):
    del f.gates[1]
    f.trails = [feature('LineString', _WAY[:3], name='Lane', surface='dirt')]


@_fault('problem', 'Shortcut')
def trail_crosses_fence_without_gate(f):
    f.trails.append(feature('LineString', [(200, -60), (320, 60), (200, 200)], name='Shortcut', surface='two_track'))


@_fault('problem', 'Lost gate')
def gate_far_from_fence(f):
    f.gates.append(feature('Point', (300, 200), name='Lost gate'))


@_fault('problem', 'Far yard')
def yard_unreachable(f):
    f.yards.append(feature('Point', (3000, -2000), name='Far yard'))


@_fault('error', 'pastures.shp', 'crs_missing')
def no_crs(f):
    f.extra['pastures.geojson'] = None
    write_vector(f'{f.path}/pastures.shp', 'ESRI Shapefile', f.pastures, ['-lco', 'DBF_DATE_LAST_UPDATE=2027-01-10'])
    os.remove(f'{f.path}/pastures.prj')


@_fault('error', 'pastures.geojson', 'coordinates_out_of_range')
def swapped_lat_lon(f):
    for item in f.pastures:
        item['geometry']['coordinates'] = [[p[::-1] for p in ring] for ring in item['geometry']['coordinates']]


@_fault('error', 'herds.csv')
def empty_file(f):
    f.extra['herds.csv'] = ''


@_fault('error', 'pastures.geojson')
def broken_json(f):
    f.extra['pastures.geojson'] = geojson_text(f.pastures)[:400]


@_fault('error', 'hay.csv')
def csv_open_quote(f):
    f.extra['hay.csv'] = 'lot,yard,kind,bales,bale_lb\n"Grass,Stack yard,grass,200,1250\n'


@_fault('problem', 'hay')
def hay_none_on_hand(f):
    f.hay = [('Grass', 'Stack yard', 'grass', 0, 1250)]


@_fault('problem', 'Little pond')
def setback_missing(f):
    pond = frame.circle((320, 620), 20, 10)
    f.extra['off_limits.geojson'] = geojson_text([feature('Polygon', [pond], name='Little pond', kind='water')])


@_fault('problem', 'South Pasture')
def pasture_open_track(f):
    """Two tracks driven round the fence; the ends of one lie 98 feet apart."""
    f.extra['pastures.geojson'] = None
    ways = {'South Pasture': [(31.1, 0)] + _SOUTH[1:], 'North Pasture': _NORTH}
    tracks = ''
    for name, way in ways.items():
        points = ''.join(f'<trkpt lat="{lat}" lon="{lon}"/>' for lon, lat in map(frame.degrees, way))
        tracks += f'<trk><name>{name}</name><trkseg>{points}</trkseg></trk>\n'
    f.extra['pastures.gpx'] = ('<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="sample" '
                               f'xmlns="http://www.topografix.com/GPX/1/1">\n{tracks}</gpx>\n')


@_fault('problem', 'North Pasture', 'no_feedable_ground')
def all_ground_steep_or_off_limits(f):
    lake = [(15, 420), (385, 420), (385, 785), (15, 785), (15, 420)]
    f.extra['off_limits.geojson'] = geojson_text(
        [feature('Polygon', [lake], name='Lake', kind='water', setback_ft=100)])


@_fault('problem', 'South Pasture')
def same_name_parts(f):
    f.pastures[1]['properties']['name'] = 'South Pasture'
    f.herds = [('Cows', 50, 1300, 'mid_gestation', 'South Pasture')]


def _small_terrain(path, corner, georeferenced):
    heights = [[800 + (3 * c + 2 * r) % 11 / 10 for c in range(20)] for r in range(20)]
    with tempfile.TemporaryDirectory() as folder:
        if georeferenced:
            source = os.path.join(folder, 'z.asc')
            head = f'ncols 20\nnrows 20\nxllcorner {corner[0]}\nyllcorner {corner[1]}\ncellsize 30\n'
            write_text(source, head + ''.join(' '.join(map(str, row)) + '\n' for row in heights))
            options = ['-a_srs', 'EPSG:32613']
        else:  # a plain picture has no place on the earth
            source = os.path.join(folder, 'z.pgm')
            rows = '\n'.join(' '.join(str(int(10 * z) - 7900) for z in row) for row in heights)
            numbers = bytes(int(v) for v in rows.split())
            with open(source, 'wb') as file:
                file.write(b'P5\n20 20\n255\n' + numbers)
            options = []
        os.makedirs(os.path.dirname(path), exist_ok=True)
        subprocess.run(['gdal_translate', '-q', '-ot', 'Float32', *options, source, path], check=True)


@_fault('problem', 'terrain.tif')
def terrain_no_overlap(f):
    _small_terrain(f'{f.path}/terrain.tif', (723000, 5029000), True)


@_fault('problem', 'terrain.tif')
def terrain_no_georeference(f):
    _small_terrain(f'{f.path}/terrain.tif', (0, 0), False)


def write(folder):
    for name, (change, code, severity, phrase) in FAULTS.items():
        path = folder / name
        path.mkdir()
        ranch = Folder(path)
        change(ranch)
        ranch.write(code, severity, phrase)
