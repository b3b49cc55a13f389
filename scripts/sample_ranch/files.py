"""Writers of the open formats used by the sample ranches: GeoJSON (RFC 7946), CSV, and others through ogr2ogr."""
import csv
import io
import json
import os
import subprocess
import tempfile

from . import frame

_DATE = '2027-01-10'  # fixed, so that files do not change from day to day


def geometry(kind, parts):
    """GeoJSON geometry of design points: Point p, LineString [p], Polygon [ring]."""
    if parts is None:
        return None
    if kind == 'Point':
        return {'type': kind, 'coordinates': frame.degrees(parts)}
    if kind == 'LineString':
        return {'type': kind, 'coordinates': [frame.degrees(p) for p in parts]}
    rings = []
    for i, ring in enumerate(parts):  # outer ring anticlockwise, holes clockwise
        turned = ring if (frame.area(ring) > 0) == (i == 0) else ring[::-1]
        rings.append([frame.degrees(p) for p in turned])
    return {'type': kind, 'coordinates': rings}


def feature(shape, parts, /, **properties):
    return {'type': 'Feature', 'properties': properties, 'geometry': geometry(shape, parts)}


def write_text(path, text):
    os.makedirs(os.path.dirname(path), exist_ok=True)
    with open(path, 'w', encoding='utf-8', newline='') as file:
        file.write(text)


def geojson_text(features):
    lines = ',\n'.join(json.dumps(f, ensure_ascii=False) for f in features)
    return '{"type": "FeatureCollection", "features": [\n' + lines + '\n]}\n'


def write_geojson(path, features):
    write_text(path, geojson_text(features))


def write_csv(path, header, rows):
    out = io.StringIO()
    writer = csv.writer(out, lineterminator='\n')
    writer.writerow(header.split())
    writer.writerows(['' if v is None else v for v in row] for row in rows)
    write_text(path, out.getvalue())


def write_vector(path, driver, features, options=()):
    """Any vector format, in EPSG:32613."""
    name = os.path.splitext(os.path.basename(path))[0]
    with tempfile.TemporaryDirectory() as folder:
        source = os.path.join(folder, name + '.geojson')
        write_geojson(source, features)
        subprocess.run(['ogr2ogr', '-f', driver, '-t_srs', 'EPSG:32613', '-nln', name, '--config', 'OGR_CURRENT_DATE',
                        _DATE + 'T12:00:00.000Z', *options, path, source], check=True)


def write_geopackage(path, features):
    write_vector(path, 'GPKG', features, ['-nlt', 'GEOMETRY'])


def write_shapefile(path, features):
    write_vector(path, 'ESRI Shapefile', features,
                 ['-lco', 'ENCODING=UTF-8', '-lco', 'DBF_DATE_LAST_UPDATE=' + _DATE])
