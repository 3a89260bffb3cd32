// The pane drawn to scale, seen from outdoors: frame, the glass that one sees, its warm middle and cool edge, a lasting
// shadow, and where the edge is stretched most. Colors are steps of the viridis scale (van der Walt & Smith, CC0), even
// to the eye and to the color-blind; nothing is told by color alone.

const picturePx = { pane: 200, left: 30, top: 44, width: 320 };
const cool = "#3e4a89", warm = "#b5de2b";

const lengthText = (meters) => {
  if (settings.units === "metric") return `${Math.round(1000 * meters)} mm`;
  const sixteenths = Math.round((meters / 0.0254) * 16), whole = Math.floor(sixteenths / 16), fraction = inchFractions[sixteenths % 16];
  return [whole || "", fraction].filter(Boolean).join(" ") + " in";
};
const warmthText = (celsius) => (settings.units === "metric" ? `${Math.round(celsius)} \u00b0C` : `${Math.round(1.8 * celsius + 32)} \u00b0F`);

// Shadow of a lasting pattern on the glass that one sees, a path in shares of its width and height, y down.
function shadowPath({ pattern, share: s, width_m, height_m }) {
  const box = (x, y, w, h) => `M${x} ${y}h${w}v${h}h${-w}z`;
  const band = s * Math.min(width_m, height_m), across = band / width_m, down = band / height_m;
  return {
    "head-band": box(0, 0, 1, s),
    "side-band": box(0, 0, s, 1),
    L: `M0 0h1v${s}h${s - 1}v${1 - s}h${-s}z`,
    half: box(0, 0, 0.5, 1),
    diagonal: "M0 0h1L0 1z",
    "narrow-frame": box(0, 0, 1, 1) + box(across, down, 1 - 2 * across, 1 - 2 * down),
    "sun-patch": box(0, 0, 1, 1) + box(0.5 * (1 - s), 1 - s, s, s),
  }[pattern];
}

function patternDefs() {
  const defs = drawn("defs");
  const hatch = drawn("pattern", { id: "hatch", width: 7, height: 7, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" });
  hatch.append(drawn("rect", { width: 7, height: 7, fill: "#fff", "fill-opacity": 0.35 }), drawn("path", { d: "M0 0V7", stroke: "#111", "stroke-width": 3 }));
  const dots = drawn("pattern", { id: "dots", width: 6, height: 6, patternUnits: "userSpaceOnUse" });
  dots.append(drawn("rect", { width: 6, height: 6, fill: cool }), drawn("circle", { cx: 3, cy: 3, r: 1.1, fill: "#fff" }));
  const glow = drawn("radialGradient", { id: "glow", cx: 0.5, cy: 0.5, r: 0.72 });
  glow.append(drawn("stop", { offset: 0.55, "stop-color": warm }), drawn("stop", { offset: 1, "stop-color": "#31688e" }));
  defs.append(hatch, dots, glow);
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
function stretchMark([x, y], side) {
  const upright = side === "left" || side === "right";
  const mark = drawn("g", { transform: `translate(${x} ${y})${upright ? " rotate(90)" : ""}`, class: "stretch" });
  mark.append(drawn("path", { d: "M-5 0H-24M-17 -6L-25 0L-17 6M5 0H24M17 -6L25 0L17 6" }), drawn("circle", { r: 6 }));
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
    shadow ? t("A shadow lies on it ({}).", t(picture.pattern)) : t("No lasting shadow on it."),
  ].join(" ");
}

function paneScale({ width_m, height_m, bite_m }) {
  return picturePx.pane / Math.max(width_m + 2 * bite_m, height_m + 2 * bite_m);
}

function paneShapes(picture, lite, shadow) {
  const { width_m, height_m, bite_m } = picture, scale = paneScale(picture);
  const glass = { x: picturePx.left + 14, y: picturePx.top, width: (width_m + 2 * bite_m) * scale, height: (height_m + 2 * bite_m) * scale };
  const bite = Math.max(bite_m * scale, 3);  // a bite of some millimeters would be no line at all
  const shapes = [
    rect(glass.x - 10, glass.y - 10, glass.width + 20, glass.height + 20, { class: "frame" }),
    rect(glass.x, glass.y, glass.width, glass.height, { fill: "url(#dots)", stroke: "#111", class: "keep" }),
    rect(glass.x + bite, glass.y + bite, glass.width - 2 * bite, glass.height - 2 * bite, { fill: "url(#glow)", stroke: "#111", class: "keep" }),
  ];
  if (shadow)
    shapes.push(drawn("path", { d: shadow, fill: "url(#hatch)", "fill-rule": "evenodd", class: "keep",
      transform: `translate(${glass.x + bite} ${glass.y + bite}) scale(${glass.width - 2 * bite} ${glass.height - 2 * bite})` }));
  shapes.push(stretchMark(edgePoint(glass, lite.where, scale), lite.where.side));
  shapes.push(drawn("text", { x: glass.x + glass.width / 2, y: 22, "text-anchor": "middle" }, lengthText(width_m)));
  const at = [glass.x + glass.width + 18, glass.y + glass.height / 2];
  shapes.push(drawn("text", { x: at[0], y: at[1], "dominant-baseline": "middle" }, lengthText(height_m)));
  return { shapes, bottom: glass.y + glass.height + 34 };
}

function panePicture(picture, lite) {
  const shadow = shadowPath(picture);
  const { shapes, bottom } = paneShapes(picture, lite, shadow);
  const rows = [
    [swatch("url(#glow)"), t("glass that one sees: warm middle, {}", warmthText(lite.center_temperature_c))],
    [swatch("url(#dots)"), t("edge under the frame: cool, {}", warmthText(lite.edge_temperature_c))],
    [stretchMark([13, 9], "top"), t("stretched most: {} edge", t(lite.where.side))],
  ];
  if (shadow) rows.push([swatch("url(#hatch)"), t("lasting shadow")]);
  const svg = drawn("svg", { viewBox: `0 0 ${picturePx.width} ${bottom + 24 * rows.length}`, role: "img", class: "pane", "aria-labelledby": "pane-words" });
  svg.append(patternDefs(), ...shapes, ...rows.map(([sign, text], i) => legendRow(bottom + 24 * i, sign, text)));
  const figure = element("figure");
  figure.append(svg, element("figcaption", describedPane(picture, lite, shadow), { id: "pane-words" }));
  return figure;
}
