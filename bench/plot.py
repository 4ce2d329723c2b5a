"""Line plots on two logarithmic axes, as SVG."""
import math

WIDTH, HEIGHT = 580, 320
LEFT, RIGHT, TOP, BOTTOM = 62, 36, 34, 46
COLOURS = ("#1f4e79", "#b5541c", "#4a7d2c")


def scale(values):
    """From a value to 0 .. 1, and the powers of ten to mark."""
    low = math.floor(math.log10(min(values)))
    high = max(math.ceil(math.log10(max(values))), low + 1)
    return (lambda v: (math.log10(v) - low) / (high - low),
            [10.0 ** k for k in range(low, high + 1)])


def label(value):
    return f"{value:,.0f}" if value >= 1 else f"{value:g}"


def write(path, title, x_name, y_name, series):
    """`series`: name -> [(x, y)], all above 0; `y` in the unit of y_name."""
    points = [p for line in series.values() for p in line]
    to_x, x_marks = scale([x for x, _ in points])
    to_y, y_marks = scale([y for _, y in points])

    def across(x):
        return LEFT + to_x(x) * (WIDTH - LEFT - RIGHT)

    def down(y):
        return HEIGHT - BOTTOM - to_y(y) * (HEIGHT - TOP - BOTTOM)

    out = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
           f'font-family="sans-serif" font-size="11" role="img">',
           f"<title>{title}</title>",
           f'<rect width="{WIDTH}" height="{HEIGHT}" fill="white"/>',
           f'<text x="{LEFT}" y="16" font-size="13">{title}</text>']
    for x in x_marks:
        out.append(f'<path d="M{across(x):.1f} {TOP}V{HEIGHT - BOTTOM}" stroke="#ddd"/>'
                   f'<text x="{across(x):.1f}" y="{HEIGHT - BOTTOM + 15}" '
                   f'text-anchor="middle">{label(x)}</text>')
    for y in y_marks:
        out.append(f'<path d="M{LEFT} {down(y):.1f}H{WIDTH - RIGHT}" stroke="#ddd"/>'
                   f'<text x="{LEFT - 6}" y="{down(y) + 4:.1f}" '
                   f'text-anchor="end">{label(y)}</text>')
    out.append(f'<text x="{(LEFT + WIDTH - RIGHT) / 2}" y="{HEIGHT - 10}" '
               f'text-anchor="middle">{x_name}</text>')
    out.append(f'<text transform="translate(14 {(TOP + HEIGHT - BOTTOM) / 2}) rotate(-90)" '
               f'text-anchor="middle">{y_name}</text>')
    for number, (name, line) in enumerate(series.items()):
        colour = COLOURS[number]
        curve = "L".join(f"{across(x):.1f} {down(y):.1f}" for x, y in line)
        out.append(f'<path d="M{curve}" fill="none" stroke="{colour}" stroke-width="2"/>')
        out += [f'<circle cx="{across(x):.1f}" cy="{down(y):.1f}" r="3" fill="{colour}"/>'
                for x, y in line]
        out.append(f'<text x="{WIDTH - RIGHT - 4}" y="{TOP + 14 + 15 * number}" '
                   f'text-anchor="end" fill="{colour}">{name}</text>')
    with open(path, "w", encoding="utf-8") as f:
        f.write("\n".join(out + ["</svg>"]) + "\n")
