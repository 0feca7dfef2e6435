"""An invented lap in every format that is read; writes lap* and map* here.

Plain Python, apart from the Go code on purpose: the bytes of FIT and the
checksums of NMEA 0183 are made here from their published descriptions. The lap
is an ellipse at 58.3 N, 8.1 E, in 40 s, a fix a second from 23:59:40 UTC on, so
that every recording goes past midnight. Recordings have three laps and a bit, maps
have one.
"""

import datetime
import json
import math
import pathlib
import struct

HERE = pathlib.Path(__file__).parent
START = datetime.datetime(2027, 5, 13, 23, 59, 40, tzinfo=datetime.timezone.utc)


def fix(i):
    """Time, latitude, longitude, height and speed of a fix."""
    a = 2 * math.pi * i / 40
    lat, lon = 58.3 + 0.0015 * math.sin(a), 8.1 + 0.006 * math.cos(a)
    north = 0.0015 * math.cos(a) * 111_370
    east = -0.006 * math.sin(a) * 111_320 * math.cos(math.radians(58.3)) * 1.0024
    return START + datetime.timedelta(seconds=i), lat, lon, 12 + 2 * math.sin(a), 2 * math.pi / 40 * math.hypot(north, east)


FIXES = [fix(i) for i in range(131)]
ROUND = FIXES[:41]


def iso(t):
    return t.strftime("%Y-%m-%dT%H:%M:%SZ")


def write(name, text):
    (HERE / name).write_bytes(text if isinstance(text, bytes) else text.encode())


def minutes(deg, width):
    """ddmm.mmmmm of NMEA 0183."""
    whole = int(abs(deg))
    return f"{whole:0{width}d}{(abs(deg) - whole) * 60:08.5f}"


def gpx(version, points):
    return f'<?xml version="1.0"?>\n<gpx version="{version}" creator="by hand" xmlns="http://www.topografix.com/GPX/{version.replace(".", "/")}">\n{points}</gpx>\n'


TIMED = "".join(f'<trkpt lat="{la:.7f}" lon="{lo:.7f}"><ele>{h:.1f}</ele><time>{iso(t)}</time></trkpt>\n' for t, la, lo, h, v in FIXES)
SPEEDS = "".join(f'<trkpt lat="{la:.7f}" lon="{lo:.7f}"><ele>{h:.1f}</ele><time>{iso(t)}</time><speed>{v:.2f}</speed></trkpt>\n' for t, la, lo, h, v in FIXES)
write("lap.gpx", gpx("1.1", f"<trk><name>lap</name><trkseg>\n{TIMED}</trkseg></trk>\n"))
write("lap-1-0.gpx", gpx("1.0", f"<trk><name>lap</name><trkseg>\n{SPEEDS}</trkseg></trk>\n"))
ROUTE = "".join(f'<rtept lat="{la:.7f}" lon="{lo:.7f}"/>\n' for _, la, lo, _, _ in ROUND)
BARE = "".join(f'<trkpt lat="{la:.7f}" lon="{lo:.7f}"/>\n' for _, la, lo, _, _ in reversed(ROUND))
write("map.gpx", gpx("1.1", f"<rte><name>full course</name>\n{ROUTE}</rte>\n<trk><name>full course</name><trkseg>\n{BARE}</trkseg></trk>\n"))

WHEN = "".join(f"<when>{iso(t)}</when>\n" for t, *_ in FIXES) + "".join(f"<gx:coord>{lo:.7f} {la:.7f} {h:.1f}</gx:coord>\n" for _, la, lo, h, _ in FIXES)
KML = '<?xml version="1.0"?>\n<kml xmlns="http://www.opengis.net/kml/2.2" xmlns:gx="http://www.google.com/kml/ext/2.2"><Document>\n{}</Document></kml>\n'
write("lap.kml", KML.format(f"<Placemark><name>lap</name><gx:Track>\n{WHEN}</gx:Track></Placemark>\n"))
RING = "\n".join(f"{lo:.7f},{la:.7f},{h:.1f}" for _, la, lo, h, _ in ROUND)
PIT = "8.094,58.3 8.0935,58.3005 8.094,58.301"
write("map.kml", KML.format(
    "<Placemark><name>gate</name><Point><coordinates>8.1,58.3</coordinates></Point></Placemark>\n"
    f"<Placemark><name>full course</name><LineString><coordinates>\n{RING}\n</coordinates></LineString></Placemark>\n"
    f"<Placemark><name>pit lane</name><LineString><coordinates>{PIT}</coordinates></LineString></Placemark>\n"))

TCX = '<?xml version="1.0"?>\n<TrainingCenterDatabase xmlns="http://www.garmin.com/xmlschemas/TrainingCenterDatabase/v2">\n{}</TrainingCenterDatabase>\n'
POINTS = [
    f"<Trackpoint><Time>{iso(t)}</Time><Position><LatitudeDegrees>{la:.7f}</LatitudeDegrees><LongitudeDegrees>{lo:.7f}</LongitudeDegrees></Position>"
    f'<AltitudeMeters>{h:.1f}</AltitudeMeters><Extensions><TPX xmlns="http://www.garmin.com/xmlschemas/ActivityExtension/v2"><Speed>{v:.2f}</Speed></TPX></Extensions></Trackpoint>\n'
    for t, la, lo, h, v in FIXES]
WHOLE, ONCE = "".join(POINTS), "".join(POINTS[:41])
write("lap.tcx", TCX.format(f'<Activities><Activity Sport="Other"><Id>{iso(START)}</Id><Lap StartTime="{iso(START)}"><Track>\n{WHOLE}</Track></Lap></Activity></Activities>\n'))
write("map.tcx", TCX.format(f"<Courses><Course><Name>full course</Name><Track>\n{ONCE}</Track></Course></Courses>\n"))

write("map.geojson", json.dumps({"type": "FeatureCollection", "features": [
    {"type": "Feature", "geometry": {"type": "Point", "coordinates": [8.1, 58.3]}, "properties": {"name": "gate"}},
    {"type": "Feature", "geometry": {"coordinates": [[round(lo, 7), round(la, 7), round(h, 1)] for _, la, lo, h, _ in ROUND], "type": "LineString"}, "properties": {"name": "full course"}},
]}, indent=1) + "\n")


def crc16(data):
    """The checksum of the FIT protocol: CRC-16 with the polynomial 0xA001, bit by bit."""
    crc = 0
    for byte in data:
        crc ^= byte
        for _ in range(8):
            crc = crc >> 1 ^ (0xA001 if crc & 1 else 0)
    return crc


def fit(kind):
    """A FIT file: file_id and record, defined and written little-endian."""
    body = struct.pack("<BBBHBBBB", 0x40, 0, 0, 0, 1, 0, 1, 0x00) + struct.pack("<BB", 0, kind)
    if kind == 6:
        body += struct.pack("<BBBHBBBB", 0x42, 0, 0, 31, 1, 5, 12, 0x07) + b"\x02full course\x00"
    fields = [(253, 4, 0x86), (0, 4, 0x85), (1, 4, 0x85), (2, 2, 0x84), (6, 2, 0x84)]
    body += struct.pack("<BBBHB", 0x41, 0, 0, 20, len(fields)) + b"".join(struct.pack("BBB", *f) for f in fields)
    zero = datetime.datetime(1989, 12, 31, tzinfo=datetime.timezone.utc)
    for t, la, lo, h, v in ROUND if kind == 6 else FIXES:
        body += struct.pack("<BIiiHH", 1, int((t - zero).total_seconds()), round(la / 180 * 2**31), round(lo / 180 * 2**31), round((h + 500) * 5), round(v * 1000))
    head = struct.pack("<BBHI4s", 14, 0x20, 2132, len(body), b".FIT")
    head += struct.pack("<H", crc16(head))
    return head + body + struct.pack("<H", crc16(head + body))


write("lap.fit", fit(4))
write("map.fit", fit(6))


def sentence(body):
    total = 0
    for c in body.encode():
        total ^= c
    return f"${body}*{total:02X}\r\n"


NMEA = ""
for t, la, lo, h, v in FIXES:
    place = f"{minutes(la, 2)},N,{minutes(lo, 3)},E"
    NMEA += sentence(f"GPGGA,{t:%H%M%S}.00,{place},1,09,0.9,{h:.1f},M,40.0,M,,")
    NMEA += sentence("GPGSV,1,1,01,05,40,083,46")
    NMEA += sentence(f"GPRMC,{t:%H%M%S}.00,A,{place},{v * 3600 / 1852:.2f},,{t:%d%m%y},,,A")
write("lap.nmea", NMEA)


def comma(x, places):
    return f"{x:.{places}f}".replace(".", ",")


def dm(deg, plus):
    whole = int(deg)
    return f"{whole}°{(deg - whole) * 60:08.5f}'{plus}"


write("lap-semicolon.csv", (
    "Aufzeichnung;von Hand\nFahrzeug;Juniper; erfunden\n\nDatum;Uhrzeit;Breitengrad;Längengrad;Höhe;Geschwindigkeit;Geschwindigkeit (GPS)\n;hh:mm:ss;[°];[°];[m];[km/h];\n"
    + "".join(f"{t:%d.%m.%Y};{t:%H:%M:%S},00;{comma(la, 7)};{comma(lo, 7)};{comma(h, 1)};{comma(v * 3.6, 2)};{comma(v, 2)}\n" for t, la, lo, h, v in FIXES)).encode("latin-1"))
write("lap-quoted.csv", (
    '"Session","invented"\n"Laps",1\n"Elapsed_Time (ms)","GPS_Latitude","GPS_Longitude","GPS_Altitude (ft)","GPS_Speed (mph)","Speed","Velocity"\n'
    + "".join(f'"{i * 1000}","{la:.7f}","{lo:.7f}","{h / 0.3048:.2f}","{v * 3600 / 1609.344:.3f}","{v:.1f}","0"\n' for i, (t, la, lo, h, v) in enumerate(FIXES))))
write("lap-minutes.csv", "heure\tlatitude\tlongitude\taltitude (m)\tvitesse (m/s)\n"
      + "".join(f"{t:%H:%M:%S}.000\t{dm(la, 'N')}\t{dm(lo, 'E')}\t{h:.1f}\t{v:.2f}\n" for t, la, lo, h, v in FIXES))

write("map.csv", "# x_m,y_m,w_tr_right_m,w_tr_left_m\n" + "".join(
    f"{350 * math.cos(2 * math.pi * i / 40):.3f},{167 * math.sin(2 * math.pi * i / 40):.3f},6.0,5.5\n" for i in range(41)))
write("map-width.csv", "latitude;longitude;largeur (m)\n" + "".join(f"{comma(la, 7)};{comma(lo, 7)};11,5\n" for _, la, lo, _, _ in ROUND))
