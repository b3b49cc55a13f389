"""Tables of the sample ranch: herds, hay, rigs, moves, weather, settings."""
from .files import write_csv

HERDS = [
    # herd, head, weight, stage, calving, bales a day, pastures, every, cake lb/CP/TDN/P, mineral oz/P
    ('Main cows', 210, 1320, None, '2027-03-10', '2027-04-25', None, 'Home Flat;West Bench;Plum Draw', 1,
     None, None, None, None, None, None),
    ('First-calf heifers', 90, 1090, 'first_calf_late', '2027-02-25', '2027-04-05', None, 'Creek Meadow;Corral Trap', 1,
     2, 20, 78, 0.8, 4, 8),
    ('Late calvers', 160, 1270, 'mid_gestation', None, None, 4.5, 'East Rise;Far Corner;Lower Creek', 2,
     None, None, None, None, None, None),
]

_HQ, _EAST = 'Headquarters yard', 'East yard'
HAY = [
    # lot, yard, kind, bales, lb, dm, cp, tdn, p, k, nitrate, price, first, keep_to, wrap, counted
    ('Alfalfa 2nd cut', _HQ, 'alfalfa', 190, 1300, 88, 18.2, 60, 0.24, 1.90, None, 165, 'no', None, 'net'),
    ('Bottom grass', _HQ, 'grass', 370, 1250, 89, 9.4, 55, 0.17, 1.50, None, 110, 'no', None, 'net'),
    ('Meadow native 2025', _HQ, 'native', 110, 1150, 90, 7.2, 51, 0.13, 1.15, None, 90, 'yes', None, 'twine'),
    ('Oat straw', _HQ, 'straw', 70, 1150, 90, 4.4, 46, 0.10, 1.80, None, 60, 'no', None, 'net'),
    ('East brome', _EAST, 'grass', 390, 1280, 88, 10.1, 56, 0.18, 1.60, None, 115, 'no', None, 'net'),
    ('Hill native', _EAST, 'native', 210, 1180, None, None, None, None, None, None, 85, 'no', None, 'twine'),
    ('Oat hay', _EAST, 'other', 90, 1400, 87, 9.8, 57, 0.20, 1.70, 1450, 95, 'no', None, 'net'),
    ('Weedy roadside', _EAST, 'grass', 60, 1200, 90, 8.0, 52, 0.14, 1.30, None, 70, 'no', 'East Rise', 'twine'),
    # fed out, kept for what earlier feedings left on the ground
    ('Grass 2024', _HQ, 'grass', 0, 1230, 89, 9.0, 54, 0.16, 1.45, None, None, 'no', None, 'net'),
    ('Alfalfa 2024', _HQ, 'alfalfa', 0, 1310, 88, 17.5, 59, 0.23, 1.85, None, None, 'no', None, 'net'),
    ('East grass 2025', _EAST, 'grass', 0, 1260, 88, 9.6, 55, 0.17, 1.55, None, None, 'no', None, 'net'),
]

RIGS = [
    ('Shredder', 'shred', 'straight', None, 3, 25500, 140, 30, 11, 6, 25, 'right', 3.5, 2.0, 5.0, 3.0, 8, None, 75),
    ('Trailer unroller', 'unroll', 'wide', 150, 4, 22000, 115, 28, 15, 5, 0, 'behind', 3.0, 1.6, 4.5, 2.0, 10, None,
     None),
    ('Loader unroller', 'unroll', 'any', None, 2, 18400, 95, 24, 6, 4, 0, 'behind', 2.5, 1.4, 4.0, 2.5, 4, 14, None),
]

_WEATHER = [
    # wind from, mph, low F, high F, wet, thaw, snow; from 2027-01-04
    ('W', 8, 9, 27, 0, 0, 0), ('SW', 10, 14, 33, 0, 0, 0), ('S', 7, 12, 30, 0, 0, 0), ('NW', 14, 4, 21, 0, 0, 1),
    ('NW', 12, -2, 14, 0, 0, 1), ('N', 9, -6, 12, 0, 0, 1), ('W', 6, 1, 20, 0, 0, 1), ('SW', 8, 8, 26, 0, 0, 1),
    ('NW', 18, -4, 11, 0, 0, 1), ('NW', 25, -18, -3, 0, 0, 1), ('NW', 20, -15, 2, 0, 0, 1), ('W', 9, -5, 19, 0, 0, 1),
    ('SW', 12, 22, 40, 0, 1, 1), ('SW', 10, 27, 44, 1, 1, 0), ('W', 7, 18, 34, 0, 0, 0), ('NW', 11, 10, 25, 0, 0, 0),
    ('N', 8, 3, 18, 0, 0, 1), ('NE', 6, 5, 20, 0, 0, 1), ('E', 7, 9, 24, 0, 0, 1), ('SE', 9, 14, 30, 0, 0, 1),
    ('S', 8, 17, 33, 0, 0, 0),
]

SETTINGS = [('units', 'us'), ('season_start', '07-01'), ('time_zone', 'America/Denver'), ('turnout', '2027-05-15'),
            ('fuel_price_per_gal', 3.80), ('labor_per_h', 22), ('machine_per_h', 35), ('price_n_per_lb', 0.55),
            ('price_p2o5_per_lb', 0.60), ('price_k2o_per_lb', 0.42), ('storage_loss_pct', 5)]


def write(folder):
    write_csv(f'{folder}/herds.csv', 'herd head weight_lb stage calving_from calving_to bales_per_day pastures '
              'feed_every_days cake_lb cake_cp_pct cake_tdn_pct cake_p_pct mineral_oz mineral_p_pct', HERDS)
    write_csv(f'{folder}/hay.csv', 'lot yard kind bales bale_lb dm_pct cp_pct tdn_pct p_pct k_pct nitrate_ppm '
              'price_per_ton feed_first keep_to wrap counted_on', [row + ('2027-01-10',) for row in HAY])
    write_csv(f'{folder}/rigs.csv', 'rig method line_shape feed_radius_ft bales_per_trip mass_lb pto_hp turn_radius_ft '
              'hitch_ft windrow_ft drift_downwind_ft discharge feed_mph lay_lb_per_ft_min lay_lb_per_ft_max '
              'load_min_per_bale hookup_min waste_pct feed_hp', RIGS)
    write_csv(f'{folder}/moves.csv', 'herd date pasture', [('Late calvers', '2027-01-15', 'Far Corner')])
    yes = {0: 'no', 1: 'yes'}
    write_csv(f'{folder}/weather.csv', 'date wind_from wind_mph low_f high_f wet thaw snow',
              [(f'2027-01-{4 + i:02d}', *day[:4], *(yes[v] for v in day[4:])) for i, day in enumerate(_WEATHER)])
    write_csv(f'{folder}/settings.csv', 'key value', SETTINGS)
