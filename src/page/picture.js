// The pane drawn to scale, seen from outdoors: frame, the glass that one sees, its warm middle and cool edge, a lasting
// shadow, and where the edge is stretched most. Colors are steps of the viridis scale (van der Walt & Smith, CC0), even
// to the eye and to the color-blind; nothing is told by color alone.

const picturePx = { pane: 200, left: 30, top: 44, width: 320 };
// From cool to warm; the sketch of the way between takes one contour a step.
const warmth = ["#3e4a89", "#31688e", "#26828e", "#1f9e89", "#35b779", "#6dcd59", "#b4de2c"];
const falls = 0.1;  // m from the edge over which the sketch goes from one to the other

const lengthText = (meters) => {
  if (settings.units === "metric") return `${Math.round(1000 * meters)} mm`;
  const sixteenths = Math.round((meters / 0.0254) * 16), whole = Math.floor(sixteenths / 16), fraction = inchFractions[sixteenths % 16];
  return [whole || "", fraction].filter(Boolean).join(" ") + " in";
};
const warmthText = (celsius) => (settings.units === "metric" ? `${Math.round(celsius)} \u00b0C` : `${Math.round(1.8 * celsius + 32)} \u00b0F`);

const shadowWords = { "head-band": "a band along the top", "side-band": "a band along one side", L: "an L", half: "half of the pane", diagonal: "a slanting line", "narrow-frame": "a narrow rim", "sun-patch": "all but a patch of sun" };

// The shadow of a lasting pattern on the glass that one sees, a path in its box; undefined without one.
function shadowPath({ pattern, share: s }, { x, y, width: w, height: h }) {
  const box = (left, top, across, down) => `M${x + left} ${y + top}h${across}v${down}h${-across}z`;
  const band = s * Math.min(w, h);
  return {
    "head-band": box(0, 0, w, s * h),
    "side-band": box(0, 0, s * w, h),
    L: box(0, 0, w, s * h) + box(0, s * h, s * w, (1 - s) * h),
    half: box(0, 0, 0.5 * w, h),
    diagonal: `M${x} ${y}h${w}L${x} ${y + h}z`,
    "narrow-frame": box(0, 0, w, h) + box(band, band, w - 2 * band, h - 2 * band),
    "sun-patch": box(0, 0, w, h) + box(0.5 * (1 - s) * w, (1 - s) * h, s * w, s * h),
  }[pattern];
}

function patternDefs(edge) {
  const defs = drawn("defs");
  const hatch = drawn("pattern", { id: "hatch", width: 7, height: 7, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" });
  hatch.append(drawn("rect", { width: 7, height: 7, fill: "#fff", "fill-opacity": 0.35 }), drawn("path", { d: "M0 0V7", stroke: "#111", "stroke-width": 3 }));
  const dots = drawn("pattern", { id: "dots", width: 6, height: 6, patternUnits: "userSpaceOnUse" });
  dots.append(drawn("rect", { width: 6, height: 6, fill: edge }), drawn("circle", { cx: 3, cy: 3, r: 1.2, fill: "#fff", stroke: "#111", "stroke-width": 0.3 }));
  defs.append(hatch, dots);
  return defs;
}

const rect = (x, y, width, height, more) => drawn("rect", { x, y, width, height, ...more });

// A point of the cut edge in the picture; positions run along the cut edge from its left or lower end.
function edgePoint(glass, { side, position_m }, scale) {
  const along = position_m * scale;
  return {
    bottom: [glass.x + along, glass.y + glass.height],
    top: [glass.x + along, glass.y],
    left: [glass.x, glass.y + glass.height - along],
    right: [glass.x + glass.width, glass.y + glass.height - along],
  }[side];
}

// Two arrows that pull apart along the edge, and a ring between them.
function stretchMark([x, y], side, scale = 1) {
  const upright = side === "left" || side === "right";
  const mark = drawn("g", { transform: `translate(${x} ${y})${upright ? " rotate(90)" : ""} scale(${scale})`, class: "stretch" });
  const arrows = "M-5 0H-24M-17 -6L-25 0L-17 6M5 0H24M17 -6L25 0L17 6";
  mark.append(drawn("path", { d: arrows, class: "halo" }), drawn("path", { d: arrows }), drawn("circle", { r: 6 }));
  return mark;
}

function legendRow(y, swatch, text) {
  const row = drawn("g", { transform: `translate(8 ${y})` });
  row.append(swatch, drawn("text", { x: 34, y: 13 }, text));
  return row;
}

const swatch = (fill) => rect(1, 1, 24, 15, { fill, stroke: "#111", class: "keep" });

function describedPane(picture, lite, shadow) {
  const { side, position_m } = lite.where;
  const corner = side === "top" || side === "bottom" ? t("from the left corner") : t("from the lower corner");
  return [
    t("The pane seen from outdoors: {} wide, {} high.", lengthText(picture.width_m), lengthText(picture.height_m)),
    t("At its worst hour with film the middle is at {}, the edge under the frame at {}.", warmthText(lite.center_temperature_c), warmthText(lite.edge_temperature_c)),
    t("Stretched most: {} edge, {} {}.", t(side), lengthText(position_m), corner),
    shadow ? t("A shadow lies on it: {}.", t(shadow)) : t("No lasting shadow on it."),
  ].join(" ");
}

function paneScale({ width_m, height_m, bite_m }) {
  return picturePx.pane / Math.max(width_m + 2 * bite_m, height_m + 2 * bite_m);
}

// The glass that one sees, in contours from the edge's color to the middle's.
function contours(seen, scale, colors) {
  const step = Math.min(falls * scale, 0.25 * Math.min(seen.width, seen.height)) / colors.length;
  return colors.map((fill, i) => rect(seen.x + i * step, seen.y + i * step, seen.width - 2 * i * step, seen.height - 2 * i * step, { fill, class: "keep" }));
}

function paneShapes(picture, lite, colors) {
  const { width_m, height_m, bite_m } = picture, scale = paneScale(picture);
  const glass = { x: picturePx.left + 14, y: picturePx.top, width: (width_m + 2 * bite_m) * scale, height: (height_m + 2 * bite_m) * scale };
  const bite = Math.max(bite_m * scale, 3);  // a bite of some millimeters would be no line at all
  const seen = { x: glass.x + bite, y: glass.y + bite, width: glass.width - 2 * bite, height: glass.height - 2 * bite };
  const shapes = [
    rect(glass.x - 10, glass.y - 10, glass.width + 20, glass.height + 20, { class: "frame" }),
    rect(glass.x, glass.y, glass.width, glass.height, { fill: "url(#dots)", stroke: "#111", class: "keep" }),
    ...contours(seen, scale, colors),
    rect(seen.x, seen.y, seen.width, seen.height, { fill: "none", stroke: "#111", class: "keep" }),
  ];
  const shadow = shadowPath(picture, seen);
  if (shadow) shapes.push(drawn("path", { d: shadow, fill: "url(#hatch)", stroke: "#111", "fill-rule": "evenodd", class: "keep" }));
  shapes.push(stretchMark(edgePoint(glass, lite.where, scale), lite.where.side));
  shapes.push(drawn("text", { x: glass.x + glass.width / 2, y: 22, "text-anchor": "middle" }, lengthText(width_m)));
  const at = [glass.x + glass.width + 18, glass.y + glass.height / 2];
  shapes.push(drawn("text", { x: at[0], y: at[1], "dominant-baseline": "middle" }, lengthText(height_m)));
  return { shapes, bottom: glass.y + glass.height + 34 };
}

function panePicture(picture, lite) {
  const shadow = shadowWords[picture.pattern];
  const middleIsWarm = lite.center_temperature_c >= lite.edge_temperature_c;
  const colors = middleIsWarm ? warmth : [...warmth].reverse();
  const { shapes, bottom } = paneShapes(picture, lite, colors);
  const middle = warmthText(lite.center_temperature_c), edge = warmthText(lite.edge_temperature_c);
  const rows = [
    [swatch(colors.at(-1)), middleIsWarm ? t("warm middle, {}", middle) : t("cool middle, {}", middle)],
    [swatch("url(#dots)"), middleIsWarm ? t("cool edge under the frame, {}", edge) : t("warm edge under the frame, {}", edge)],
    [stretchMark([13, 9], "top", 0.5), t("stretched most: {} edge", t(lite.where.side))],
  ];
  if (shadow) rows.push([swatch("url(#hatch)"), t("shadow: {}", t(shadow))]);
  const svg = drawn("svg", { viewBox: `0 0 ${picturePx.width} ${bottom + 24 * rows.length}`, role: "img", class: "pane", "aria-labelledby": "pane-words" });
  svg.append(patternDefs(colors[0]), ...shapes, ...rows.map(([sign, text], i) => legendRow(bottom + 24 * i, sign, text)));
  const figure = element("figure");
  const words = `${describedPane(picture, lite, shadow)} ${t("Colors between the two are a sketch.")}`;
  figure.append(svg, element("figcaption", words, { id: "pane-words" }));
  return figure;
}
