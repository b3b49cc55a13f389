#!/usr/bin/env python3
"""Makes sample-maps/: one whole invented ranch, and tiny ranches with one known fault each.

Run from anywhere; needs Python 3.9 or newer and gdal-bin (gdal_translate, ogr2ogr). Seeded: the same files each
time with the same GDAL. The results are committed, so only who changes the sample needs this.
"""
import pathlib
import shutil
import sys

from sample_ranch import broken, feedings, places, tables, terrain
from sample_ranch.layout import Layout


def main():
    maps = pathlib.Path(__file__).resolve().parent.parent / 'sample-maps'
    ranch = maps / 'brindle-coulee'
    for folder in (ranch, maps / 'broken'):
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
    layout = Layout()
    layout.check()
    places.write(layout, ranch)
    tables.write(ranch)
    feedings.write(layout, ranch)
    terrain.write(layout, str(ranch / 'terrain.tif'))
    broken.write(maps / 'broken')


if __name__ == '__main__':
    sys.exit(main())
