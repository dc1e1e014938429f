"""A picture on paper, made of four coloured quarters by this script and looked at by other programs (poppler, ImageMagick): is it there, of
the size that paper needs, upright, and of the same colours? Usage: pictures.py PROGRAM SITE"""

import pathlib
import shutil
import struct
import subprocess
import sys
import tempfile
import zlib

WIDTH, HEIGHT = 2400, 1800
# Upper left, upper right, lower left, lower right.
QUARTERS = [(200, 40, 40), (40, 160, 40), (40, 60, 190), (210, 200, 60)]
# Storing as JPEG moves a plain colour by a little.
MOST_OFF = 4


def chunk(kind, data):
    whole = kind + data
    return struct.pack(">I", len(data)) + whole + struct.pack(">I", zlib.crc32(whole))


def png():
    """Of 8 bits and three colours (ISO/IEC 15948)."""
    half = WIDTH // 2
    rows = []
    for row in range(HEIGHT):
        left, right = QUARTERS[0:2] if row < HEIGHT // 2 else QUARTERS[2:4]
        rows.append(b"\0" + bytes(left) * half + bytes(right) * half)
    head = struct.pack(">IIBBBBB", WIDTH, HEIGHT, 8, 2, 0, 0, 0)
    data = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"".join(rows))) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + data


def turned(picture):
    """As a JPEG that lies on its side, with a camera's word (Exif orientation 6) that it is to be turned a quarter to the right."""
    jpeg = subprocess.run(
        ["convert", str(picture), "-rotate", "-90", "-quality", "95", "jpeg:-"], check=True, capture_output=True
    ).stdout
    tiff = b"MM\0*" + struct.pack(">IHHHIHHI", 8, 1, 0x0112, 3, 1, 6, 0, 0)
    exif = b"Exif\0\0" + tiff
    return jpeg[:2] + b"\xff\xe1" + struct.pack(">H", len(exif) + 2) + exif + jpeg[2:]


def colours(picture):
    """Of the middle of each quarter."""
    size = subprocess.run(["identify", "-format", "%w %h", str(picture)], check=True, capture_output=True, text=True)
    width, height = map(int, size.stdout.split())
    found = []
    for down in (0.25, 0.75):
        for across in (0.25, 0.75):
            at = f"8x8+{int(across * width)}+{int(down * height)}"
            dots = subprocess.run(
                ["convert", str(picture), "-crop", at, "+repage", "-scale", "1x1!", "-depth", "8", "rgb:-"],
                check=True,
                capture_output=True,
            ).stdout
            found.append(tuple(dots[:3]))
    return (width, height), found


def main(program, sample):
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        site = folder / "site"
        shutil.copytree(sample, site)
        pictures = site / "pictures"
        pictures.mkdir()
        (pictures / "upright.png").write_bytes(png())
        (pictures / "turned.jpg").write_bytes(turned(pictures / "upright.png"))
        (pictures / "broken.jpg").write_bytes(turned(pictures / "upright.png")[:-3000])
        record = site / "site.ron"
        text = record.read_text(encoding="utf-8").rstrip()
        named = ", ".join(f'(file: "{name}", of: AsFound)' for name in ("upright.png", "turned.jpg", "broken.jpg"))
        record.write_text(f"{text[:-1]}    show: (pictures: [{named}]),\n)\n", encoding="utf-8")
        out = folder / "out"
        made = subprocess.run([program, "sheets", str(site), "--out", str(out)], capture_output=True, text=True)
        assert made.returncode in (0, 1), made.stderr
        assert "broken.jpg" in made.stderr, f"the broken picture is not told: {made.stderr}"
        subprocess.run(["pdfimages", "-all", str(out / "owner.pdf"), str(folder / "found")], check=True)
        found = sorted(folder.glob("found*"))
        assert len(found) == 2, f"{len(found)} pictures in the owner sheet"
        for picture in found:
            size, shown = colours(picture)
            assert size == (1600, 1200), size
            for is_there, should_be in zip(shown, QUARTERS):
                off = max(abs(one - other) for one, other in zip(is_there, should_be))
                assert off <= MOST_OFF, f"{picture.name}: {is_there} instead of {should_be}"
        print("pictures: two stand in the owner sheet at 1600 x 1200, upright, in their colours; the broken one is told")


main(*sys.argv[1:])
