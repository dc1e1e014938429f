"""Opens the sheets of every sample with other programs: qpdf, poppler, Python's csv. Usage: sheets.py PROGRAM FOLDER SITE...

PROGRAM is the `underbrick` command, FOLDER a place for the files.
"""

import csv
import json
import pathlib
import re
import subprocess
import sys

PDFS = ["owner.pdf", "crew.pdf", "order.pdf", "hand-over.pdf"]
SIZES = {"letter": (612.0, 792.0), "a4": (595.28, 841.89)}
MOST_BYTES = 300_000


def run(*command, expect=(0,)):
    done = subprocess.run([str(part) for part in command], capture_output=True, text=True)
    if done.returncode not in expect:
        sys.exit(f"{' '.join(map(str, command))}: status {done.returncode}\n{done.stdout}{done.stderr}")
    # A reader of PDF that complains says so there, with status 0.
    if str(command[0]).startswith("pdf") and "Syntax" in done.stderr:
        sys.exit(f"{' '.join(map(str, command))}: {done.stderr}")
    return done.stdout


def plain(text):
    """Letters and figures alone: primes and spaces of a fraction are set apart on paper."""
    return re.sub(r"[\s′″'\"]", "", text)


def look_at(pdf, paper):
    run("qpdf", "--check", pdf)
    info = run("pdfinfo", pdf)
    facts = dict(re.findall(r"^([^:]+):\s*(.*)$", info, re.MULTILINE))
    if not facts.get("Title"):
        sys.exit(f"{pdf}: no title")
    if facts.get("Tagged") != "yes":
        sys.exit(f"{pdf}: not tagged")
    width, height = map(float, re.match(r"([\d.]+) x ([\d.]+) pts", facts["Page size"]).groups())
    if abs(width - SIZES[paper][0]) > 0.6 or abs(height - SIZES[paper][1]) > 0.6:
        sys.exit(f"{pdf}: {width} x {height} points are no {paper}")
    for font in run("pdffonts", pdf).splitlines()[2:]:
        # name, type of three words, encoding, embedded, subset, unicode
        if not re.search(r"Identity-H\s+yes\s+yes\s+yes", font):
            sys.exit(f"{pdf}: a font is not embedded, not subset or has no Unicode: {font}")
    if pdf.stat().st_size >= MOST_BYTES:
        sys.exit(f"{pdf}: {pdf.stat().st_size} bytes")
    text = run("pdftotext", "-layout", pdf, "-")
    n_pages = int(facts["Pages"])
    pages = text.split("\f")[:n_pages]
    for number, page in enumerate(pages, 1):
        if not re.search(rf"(page|página)\s+{number}\s+(of|de)\s+{n_pages}", page):
            sys.exit(f"{pdf}: page {number} does not say its number")
    return text


def scale_bars(pdf, folder):
    """Measures the bar in each drawing under which a scale is said, in pixels: [(measured mm, stated mm)]."""
    dots = 200
    bars = []
    pages = run("pdftotext", "-bbox", pdf, "-").split("<page ")[1:]
    for number, page in enumerate(pages, 1):
        words = re.findall(r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]+)<', page)
        words = [(float(a), float(b), float(c), float(d), word) for a, b, c, d, word in words]
        pixels = None
        for one, colon, to in zip(words, words[1:], words[2:]):
            # "1 : 16" under a drawing; the walk lengthwise has an axis and no bar.
            scale = re.fullmatch(r"(\d+)[).,;]*", to[4])
            if not (one[4].strip("(") == "1" and colon[4] == ":" and scale):
                continue
            line = " ".join(word[4] for word in words if abs(word[1] - one[1]) < 2)
            if "lengthwise" in line or "a lo largo" in line:
                continue
            # The lowest "0" over the caption at the left, and the figure with a unit to the right of it.
            zero = max((w for w in words if w[4] == "0" and w[0] < 62 and w[1] < one[1]), key=lambda w: w[1], default=None)
            if zero is None or one[1] - zero[1] > 72:
                sys.exit(f"{pdf}: page {number}: no bar over {line!r}")
            same = sorted(w for w in words if abs(w[1] - zero[1]) < 2 and w[0] > zero[0])
            amount = next(w for w in same if re.fullmatch(r"\d+", w[4]))
            unit = next(w for w in same if w[0] > amount[0])
            metres = float(amount[4]) * {"ft": 0.3048, "in": 0.0254, "m": 1.0, "mm": 0.001}[unit[4]]
            if pixels is None:
                run("pdftoppm", "-r", dots, "-gray", "-f", number, "-l", number, "-singlefile", pdf, folder / "bar")
                data = (folder / "bar.pgm").read_bytes()
                width, height = map(int, re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data).groups())
                pixels = data[-width * height :]
            # The bar lies just over its figures: the longest dark stretch of any row there.
            longest = 0
            for row in range(int((zero[1] - 12) * dots / 72), int(zero[1] * dots / 72)):
                left = int((zero[0] - 6) * dots / 72)
                right = int((unit[2] + 10) * dots / 72)
                stretch = 0
                for pixel in pixels[row * width + left : row * width + right]:
                    stretch = stretch + 1 if pixel < 140 else 0
                    longest = max(longest, stretch)
            measured_mm = longest / dots * 25.4
            stated_mm = metres * 1000 / float(scale.group(1))
            # Half a pen at each end, and a pixel.
            if abs(measured_mm - stated_mm) > 0.4:
                sys.exit(f"{pdf}: page {number}: the bar of {metres:.3f} m at 1 : {scale.group(1)} measures {measured_mm:.2f} mm, not {stated_mm:.2f} mm")
            bars.append((measured_mm, stated_mm))
    return bars


program, folder, *sites = map(pathlib.Path, sys.argv[1:])
n_numbers = n_pdfs = 0
bars = []
for site in sites:
    for paper in SIZES:
        for language in ("en", "es"):
            out = folder / f"{site.name} {paper} {language} \"quoted\""
            asked = [program, "sheets", site, "--paper", paper, "--lang", language, "--date", "2026-05-04"]
            run(*asked, "--out", out, expect=(0, 1))
            again = folder / "again"
            run(*asked, "--out", again, expect=(0, 1))
            for file in out.iterdir():
                if file.read_bytes() != (again / file.name).read_bytes():
                    sys.exit(f"{file}: other bytes the second time")
            for name in PDFS:
                text = look_at(out / name, paper)
                n_pdfs += 1
                if name == "crew.pdf":
                    stakes = subprocess.run([program, "stakes", site, "--json"], capture_output=True, text=True)
                    if stakes.returncode in (0, 1) and stakes.stdout:
                        words = plain(text)
                        for stake in json.loads(stakes.stdout)["stakes"]:
                            for surface in stake["surfaces"]:
                                n_numbers += 1
                                if plain(surface["drop"]["shown"]) not in words:
                                    sys.exit(f"{out / name}: no {surface['drop']['shown']} of {surface['name']}")
            for name in ("crew.pdf", "hand-over.pdf"):
                found = scale_bars(out / name, folder)
                if not found:
                    sys.exit(f"{out / name}: no scale is said under any drawing")
                bars.extend(found)
            for name in ("set-out.csv", "order.csv", "readings.csv"):
                with open(out / name, newline="", encoding="utf-8") as file:
                    rows = list(csv.reader(file, strict=True))
                if rows and any(len(row) != len(rows[0]) for row in rows):
                    sys.exit(f"{out / name}: rows of unlike length")
if not (n_pdfs and n_numbers > 100 and bars):
    sys.exit("too little was looked at")
worst = max(abs(measured - stated) for measured, stated in bars)
print(f"  {n_pdfs} PDFs whole, tagged, with their type; {n_numbers} drops found; {len(bars)} scale bars true to {worst:.2f} mm")
