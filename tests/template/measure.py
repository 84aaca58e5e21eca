"""Prints the drilling templates to pixels and measures every hole; rereads DXF and SVG with general libraries.

usage: measure.py TEMPLATE_SAMPLE FOLDER; exit 77: a program or library is missing, nothing was checked.

Nothing here knows where holes are when it looks for them: connected dark figures are fitted with circles by least
squares, and those that fit are held against the places computed from the vessel's plain measures.
"""

import math
import pathlib
import re
import shutil
import subprocess
import sys

SKIPPED = 77
try:
    import numpy as np
    from scipy import ndimage
    import ezdxf
    from lxml import etree
except ImportError as missing:
    print(f"skipped: {missing}")
    sys.exit(SKIPPED)
if any(shutil.which(tool) is None for tool in ("pdftoppm", "pdfinfo", "rsvg-convert")):
    print("skipped: pdftoppm, pdfinfo or rsvg-convert is missing")
    sys.exit(SKIPPED)

GIVE_MM = 0.3  # asked for; the grid of pixels is 0.17 mm, a fitted circle is some ten times finer
EXACT_MM = 1e-3  # files carry six or four decimals of a millimetre
DPI = 150
MM = 25.4 / DPI
INCH = 25.4
PAPERS_MM = {"A4": (210.0, 297.0), "Letter": (8.5 * INCH, 11.0 * INCH)}  # ISO 216; ANSI/ASME Y14.1 size A


def holes_of(vessel):
    """Centre x, y and diameter in mm, y upwards, from the vessel's plain measures."""
    if vessel == "ring":
        ring = [(12 * INCH * math.cos(k * 2 * math.pi / 5), 12 * INCH * math.sin(k * 2 * math.pi / 5)) for k in range(5)]
        return [(0.0, 0.0, 4 * INCH)] + [(x, y, 4 * INCH) for x, y in ring]
    return [(x, y, 110.0 if x == 0 else 63.0) for x in (-400.0, 0.0, 400.0) for y in (-175.0, 175.0)]


def near(what, found, wanted, give):
    if not abs(found - wanted) <= give:
        sys.exit(f"{what}: {found:.4f}, expected {wanted:.4f} within {give}")


def run(*words):
    return subprocess.run([str(word) for word in words], check=True, capture_output=True).stdout


def pixels(pdf, page):
    """Red, green, blue of one page."""
    raw = run("pdftoppm", "-r", DPI, "-f", page, "-l", page, pdf)
    head = re.match(rb"P6\s(\d+) (\d+)\s255\s", raw)
    wide, high = int(head[1]), int(head[2])
    return np.frombuffer(raw, np.uint8, offset=head.end()).reshape(high, wide, 3)


def dark(page):
    return page.max(axis=2) < 115


def accented(page):
    return page[:, :, 0].astype(int) - page[:, :, 2] > 60


def circles(mask, least_mm, most_mm):
    """Centre (x, y downwards) and diameter in mm of every connected figure that is one thin, whole circle."""
    found = []
    labels, _ = ndimage.label(mask, structure=np.ones((3, 3)))
    for number, box in enumerate(ndimage.find_objects(labels), start=1):
        high = (box[0].stop - box[0].start) * MM
        wide = (box[1].stop - box[1].start) * MM
        if not (least_mm < min(high, wide) and max(high, wide) < most_mm):
            continue
        y, x = np.nonzero(labels[box] == number)
        x = (x + box[1].start + 0.5) * MM
        y = (y + box[0].start + 0.5) * MM
        a = np.column_stack([2 * x, 2 * y, np.ones_like(x)])
        (cx, cy, c), *_ = np.linalg.lstsq(a, x * x + y * y, rcond=None)
        radius = math.sqrt(max(c + cx * cx + cy * cy, 0.0))
        off = np.abs(np.hypot(x - cx, y - cy) - radius)
        turn = np.sort(np.arctan2(y - cy, x - cx))
        gap = np.max(np.diff(np.append(turn, turn[0] + 2 * math.pi)))
        if off.max() < 0.5 and gap * radius < 1.0:
            found.append((cx, cy, 2 * radius))
    return found


def compare(what, found, wanted):
    """All holes and no others, after the two sets are laid on each other without turning or stretching."""
    if len(found) != len(wanted):
        sys.exit(f"{what}: {len(found)} holes found, expected {len(wanted)}")
    found = np.array([(x, -y, d) for x, y, d in found])
    wanted = np.array(wanted)
    found[:, :2] -= found[:, :2].mean(axis=0)
    wanted[:, :2] -= wanted[:, :2].mean(axis=0)
    worst_place = worst_width = 0.0
    for x, y, d in wanted:
        k = np.argmin(np.hypot(found[:, 0] - x, found[:, 1] - y))
        worst_place = max(worst_place, math.hypot(found[k, 0] - x, found[k, 1] - y))
        worst_width = max(worst_width, abs(found[k, 2] - d))
    near(f"{what}: farthest hole centre", worst_place, 0.0, GIVE_MM)
    near(f"{what}: worst diameter", worst_width, 0.0, GIVE_MM)
    print(f"{what}: {len(found)} holes, centres within {worst_place:.3f} mm, diameters within {worst_width:.3f} mm")


def page_sizes_mm(pdf):
    text = run("pdfinfo", "-f", 1, "-l", 10000, pdf).decode()
    return [(float(w) / 72 * INCH, float(h) / 72 * INCH) for w, h in re.findall(r"size:\s+([\d.]+) x ([\d.]+) pts", text)]


def tile_grid(pdf):
    """Rows and columns, read from the words on the pages."""
    text = run("pdftotext", "-f", 2, pdf, "-").decode()
    rows, columns = re.search(r"of (\d+) rows by (\d+)", text).groups()
    return int(rows), int(columns)


def check_bar(what, page, low_mm):
    """The scale bar is the widest dark figure under the drawing."""
    strip = dark(page)[int(low_mm / MM):]
    widths = [box[1].stop - box[1].start for box in ndimage.find_objects(ndimage.label(strip, np.ones((3, 3)))[0])]
    wanted = 101.6 if "ring" in what else 100.0
    # The outline's stroke of 0.4 pt stands half outside at both ends.
    near(f"{what}: scale bar", max(widths) * MM - 0.4 / 72 * INCH, wanted, GIVE_MM)


def assemble(what, pdf, rows, columns):
    """Lays the pages on each other ring on ring and returns the dark pixels of the whole."""
    tiles = {}
    for row in range(rows):
        for column in range(columns):
            page = pixels(pdf, 2 + row * columns + column)
            marks = circles(accented(page), 4.0, 6.5)
            if len(marks) != 4:
                sys.exit(f"{what}: page {row},{column} shows {len(marks)} overlap marks, not 4")
            high = sorted(marks, key=lambda m: m[1])[:2]
            low = sorted(marks, key=lambda m: m[1])[2:]
            corners = [np.array(m[:2]) for pair in (high, low) for m in sorted(pair)]  # high left, high right, low ...
            check_bar(what, page, corners[2][1] + 8.0)
            tiles[row, column] = (dark(page), corners)
    place = {(0, 0): np.zeros(2)}
    for row in range(rows):
        for column in range(columns):
            here = tiles[row, column][1]
            if column > 0:
                there, pairs = (row, column - 1), ((1, 0), (3, 2))
            elif row > 0:
                there, pairs = (row - 1, column), ((2, 0), (3, 1))
            else:
                continue
            steps = [tiles[there][1][a] - here[b] for a, b in pairs]
            near(f"{what}: turn between pages", float(np.abs(steps[0] - steps[1]).max()), 0.0, 0.15)
            place[row, column] = place[there] + (steps[0] + steps[1]) / 2
    most = np.max(np.array(list(place.values())), axis=0)
    sheet = np.zeros([int(v / MM) + 3000 for v in most[::-1]], bool)
    for key, (mask, corners) in tiles.items():
        half = 5.5  # cut inside the frame, past the rings' middles
        left, top = np.maximum((corners[0] - half) / MM, 0).astype(int)
        right, low = ((corners[3] + half) / MM).astype(int)
        dx, dy = np.rint(place[key] / MM).astype(int) + 500
        piece = mask[top:low, left:right]
        sheet[top + dy : low + dy, left + dx : right + dx] |= piece
    return sheet


def check_dxf(vessel, file):
    document = ezdxf.readfile(file)
    if document.dxfversion != "AC1009":
        sys.exit(f"{file.name}: version {document.dxfversion}")
    if document.audit().has_errors:
        sys.exit(f"{file.name}: the reader finds errors")
    found = [(c.dxf.center.x, c.dxf.center.y, 2 * c.dxf.radius) for c in document.modelspace().query('CIRCLE[layer=="HOLES"]')]
    exactly(file.name, found, holes_of(vessel))


def check_svg(vessel, file):
    root = etree.parse(str(file)).getroot()
    box = [float(v) for v in root.get("viewBox").split()]
    near("SVG width over view box", float(root.get("width").removesuffix("mm")) / box[2], 1.0, 1e-6)
    near("SVG height over view box", float(root.get("height").removesuffix("mm")) / box[3], 1.0, 1e-6)
    drawn = root.xpath("//*[@id='HOLES']/*[local-name()='circle']")
    exactly(file.name, [(float(c.get("cx")), -float(c.get("cy")), 2 * float(c.get("r"))) for c in drawn], holes_of(vessel))
    pdf = file.with_suffix(".svg.pdf")
    run("rsvg-convert", "-f", "pdf", "-o", pdf, file)
    compare(f"{file.name}, drawn by librsvg", circles(dark(pixels(pdf, 1)), 30, 200), holes_of(vessel))


def exactly(what, found, wanted):
    if len(found) != len(wanted):
        sys.exit(f"{what}: {len(found)} holes, expected {len(wanted)}")
    for f, w in zip(sorted(found), sorted(wanted)):
        if not all(abs(a - b) < EXACT_MM for a, b in zip(f, w)):
            sys.exit(f"{what}: hole {f}, expected {w}")
    print(f"{what}: {len(found)} holes, each within {EXACT_MM} mm")


def main():
    folder = pathlib.Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    subprocess.run([sys.argv[1], str(folder)], check=True)
    for vessel in ("ring", "bin"):
        large = folder / f"{vessel}-large.pdf"
        compare(large.name, circles(dark(pixels(large, 1)), 30, 200), holes_of(vessel))
        for paper, (wide, high) in PAPERS_MM.items():
            file = folder / f"{vessel}-tiles-{paper}.pdf"
            rows, columns = tile_grid(file)
            sizes = page_sizes_mm(file)
            if len(sizes) != 1 + rows * columns:
                sys.exit(f"{file.name}: {len(sizes)} pages, expected 1 and {rows} by {columns}")
            for w, h in sizes:
                near(f"{file.name}: page width", w, wide, 0.1)
                near(f"{file.name}: page height", h, high, 0.1)
            sheet = assemble(file.name, file, rows, columns)
            compare(f"{file.name}, {rows} by {columns} pages joined", circles(sheet, 30, 200), holes_of(vessel))
        check_dxf(vessel, folder / f"{vessel}-mm.dxf")
        check_svg(vessel, folder / f"{vessel}-mm.svg")


main()
