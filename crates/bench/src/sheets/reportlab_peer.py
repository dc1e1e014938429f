# Reads documents as JSON: pages of marks in points; prints the fastest of several runs in ms that draws them all, deflated.
import io, json, sys, time
from reportlab.pdfgen import canvas

documents = json.load(sys.stdin)


def draw():
    for pages in documents:
        drawn = canvas.Canvas(io.BytesIO(), pagesize=(612, 792), pageCompression=1)
        for marks in pages:
            for mark in marks:
                if mark["kind"] == "text":
                    drawn.setFillColorRGB(*mark["fill"])
                    font = "Helvetica-Bold" if mark["bold"] else "Helvetica"
                    for x, y, size, letters in mark["runs"]:
                        drawn.setFont(font, size)
                        drawn.drawString(x, y, letters)
                    continue
                path = drawn.beginPath()
                for line in mark["lines"]:
                    if line:
                        path.moveTo(*line[0])
                        for spot in line[1:]:
                            path.lineTo(*spot)
                        if mark["kind"] == "area":
                            path.close()
                pen = mark.get("pen")
                if pen:
                    drawn.setStrokeColorRGB(*pen["colour"])
                    drawn.setLineWidth(pen["width"])
                    drawn.setDash(pen["dashes"] or [])
                if mark["kind"] == "area":
                    drawn.setFillColorRGB(*mark["fill"])
                drawn.drawPath(path, stroke=1 if pen else 0, fill=1 if mark["kind"] == "area" else 0)
            drawn.showPage()
        drawn.getpdfdata()


best = float("inf")
for _ in range(5):
    started = time.perf_counter()
    draw()
    best = min(best, (time.perf_counter() - started) * 1000)
print(best)
