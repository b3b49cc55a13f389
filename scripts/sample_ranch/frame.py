"""Grid metres of the sample ranch (UTM zone 13N, EPSG:32613) to and from degrees, and plane geometry.

Every layer is laid out in "design" metres (x east, y north, from an invented corner), scaled and moved into
the UTM grid, and written in degrees rounded once to 8 decimals (about 1 mm), so that fences and gates that
share a point share its digits.
"""
import math

SCALE = 0.96
EAST0, NORTH0 = 623000.0, 5129000.0

_A, _F, _K0, _LON0 = 6378137.0, 1 / 298.257223563, 0.9996, -105.0


def grid(p):
    """Design point -> UTM 13N metres, to the millimetre."""
    return (round(EAST0 + SCALE * p[0], 3), round(NORTH0 + SCALE * p[1], 3))


def degrees(p):
    """Design point -> [lon, lat] in degrees (Krueger's series to n^4, far below 1 mm here)."""
    east, north = grid(p)
    n = _F / (2 - _F)
    radius = _A / (1 + n) * (1 + n**2 / 4 + n**4 / 64)
    xi, eta = north / (_K0 * radius), (east - 500000.0) / (_K0 * radius)
    beta = (n / 2 - 2 * n**2 / 3 + 37 * n**3 / 96 - n**4 / 360, n**2 / 48 + n**3 / 15 - 437 * n**4 / 1440,
            17 * n**3 / 480 - 37 * n**4 / 840, 4397 * n**4 / 161280)
    xi1 = xi - sum(b * math.sin(2 * j * xi) * math.cosh(2 * j * eta) for j, b in enumerate(beta, 1))
    eta1 = eta - sum(b * math.cos(2 * j * xi) * math.sinh(2 * j * eta) for j, b in enumerate(beta, 1))
    chi = math.asin(math.sin(xi1) / math.cosh(eta1))
    delta = (2 * n - 2 * n**2 / 3 - 2 * n**3 + 116 * n**4 / 45, 7 * n**2 / 3 - 8 * n**3 / 5 - 227 * n**4 / 45,
             56 * n**3 / 15 - 136 * n**4 / 35, 4279 * n**4 / 630)
    lat = chi + sum(d * math.sin(2 * j * chi) for j, d in enumerate(delta, 1))
    lon = math.atan2(math.sinh(eta1), math.cos(xi1))
    return [round(_LON0 + math.degrees(lon), 8), round(math.degrees(lat), 8)]


def between(a, b, t):
    return (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))


def length(line):
    return sum(math.dist(a, b) for a, b in zip(line, line[1:]))


def along(line, share):
    """(index of the vertex after it, point) at a share 0..1 of the line's length."""
    left = share * length(line)
    for i, (a, b) in enumerate(zip(line, line[1:]), 1):
        step = math.dist(a, b)
        if left <= step:
            return i, between(a, b, left / step)
        left -= step
    return len(line) - 1, line[-1]


def distance_to_segment(p, a, b):
    dx, dy = b[0] - a[0], b[1] - a[1]
    t = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)
    return math.dist(p, between(a, b, min(1.0, max(0.0, t))))


def distance_to_line(p, line):
    return min(distance_to_segment(p, a, b) for a, b in zip(line, line[1:]))


def _side(a, b, c):
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def cross(a, b, c, d):
    """True where the segments a-b and c-d cross at a point inside both."""
    return _side(a, b, c) * _side(a, b, d) < 0 and _side(c, d, a) * _side(c, d, b) < 0


def crosses_line(a, b, line):
    return any(cross(a, b, c, d) for c, d in zip(line, line[1:]))


def area(ring):
    """Signed area of a closed ring; positive when it runs anticlockwise."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:])) / 2


def inside(p, ring):
    odd = False
    for a, b in zip(ring, ring[1:]):
        if (a[1] > p[1]) != (b[1] > p[1]) and p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0]):
            odd = not odd
    return odd


def circle(center, radius, corners=12, squash=1.0):
    turn = [2 * math.pi * i / corners for i in range(corners)]
    ring = [(center[0] + radius * math.cos(t), center[1] + squash * radius * math.sin(t)) for t in turn]
    return ring + ring[:1]
