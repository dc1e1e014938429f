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
    return done.stdout


def plain(text):
    """Letters and figures alone: primes and spaces of a fraction are set apart on paper."""
    return re.sub(r"[\s′″'\"]", "", text)


def look_at(pdf, paper, bars):
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


def scale_bar(pdf, folder):
    """Measures the bar under the first laying plan: 3 ft or 1 m at the scale that its caption says."""
    dots = 200
    text = run("pdftotext", "-layout", pdf, "-").split("\f")
    page = next((n for n, words in enumerate(text, 1) if "to scale" in words and "Laying plan" in words), None)
    if page is None:
        return None
    scale = float(re.search(r"1\s*:\s*(\d+)", text[page - 1][text[page - 1].index("Laying plan") :]).group(1))
    boxes = run("pdftotext", "-bbox", "-f", page, "-l", page, pdf, "-")
    words = re.findall(r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]+)<', boxes)
    words = [(float(a), float(b), float(c), float(d), word) for a, b, c, d, word in words]
    caption_y = min(y for _, y, _, _, word in words if word == "Laying" and y > 80)
    # The lowest "0" over the caption, and the figure with a unit to the right of it.
    zero = max((w for w in words if w[4] == "0" and w[1] < caption_y), key=lambda w: w[1])
    same = [w for w in words if abs(w[1] - zero[1]) < 2 and w[0] > zero[0]]
    amount = next(w for w in same if re.fullmatch(r"\d+", w[4]))
    unit = next(w[4] for w in same if w[0] >= amount[0] and w[4] in ("ft", "in", "m", "mm"))
    metres = float(amount[4]) * {"ft": 0.3048, "in": 0.0254, "m": 1.0, "mm": 0.001}[unit]
    run("pdftoppm", "-r", dots, "-gray", "-f", page, "-l", page, "-singlefile", pdf, folder / "bar")
    data = (folder / "bar.pgm").read_bytes()
    width, height = map(int, re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data).groups())
    pixels = data[-width * height :]
    # The bar lies just over its figures: the longest dark stretch of any row there.
    longest = 0
    for row in range(int((zero[1] - 12) * dots / 72), int(zero[1] * dots / 72)):
        left = int((zero[0] - 6) * dots / 72)
        right = int((same[-1][2] + 40) * dots / 72)
        stretch = 0
        for pixel in pixels[row * width + left : row * width + right]:
            stretch = stretch + 1 if pixel < 140 else 0
            longest = max(longest, stretch)
    measured_mm = longest / dots * 25.4
    stated_mm = metres * 1000 / scale
    if abs(measured_mm - stated_mm) > 0.6:
        sys.exit(f"{pdf}: page {page}: the bar of {metres:.3f} m at 1 : {scale:.0f} measures {measured_mm:.2f} mm, not {stated_mm:.2f} mm")
    return measured_mm, stated_mm


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
                text = look_at(out / name, paper, bars)
                n_pdfs += 1
                if name == "crew.pdf":
                    stakes = subprocess.run([program, "stakes", site, "--json"], capture_output=True, text=True)
                    if stakes.returncode in (0, 1) and stakes.stdout:
                        words = plain(text)
                        for stake in json.loads(stakes.stdout)["stakes"]:
                            for surface in stake["surfaces"]:
                                n_numbers += 1
                                if plain(surface["drop"]["shown"]) not in words:
                                    sys.exit(f"{out / name}: no {surface['drop']['text']} of {surface['name']}")
            if language == "en":
                bar = scale_bar(out / "crew.pdf", folder)
                if bar:
                    bars.append(bar)
            for name in ("set-out.csv", "order.csv", "readings.csv"):
                with open(out / name, newline="", encoding="utf-8") as file:
                    rows = list(csv.reader(file, strict=True))
                if rows and any(len(row) != len(rows[0]) for row in rows):
                    sys.exit(f"{out / name}: rows of unlike length")
if not (n_pdfs and n_numbers > 100 and bars):
    sys.exit("too little was looked at")
worst = max(abs(measured - stated) for measured, stated in bars)
print(f"  {n_pdfs} PDFs whole, tagged, with their type; {n_numbers} drops found; {len(bars)} scale bars true to {worst:.2f} mm")
