// A value as one types it. The units picker says what a number alone means; a unit that is typed holds.

const unitWords = {
  length: { metric: "mm", inch: "in" },
  thickness: { metric: "mm", inch: "in" },
  temperature: { metric: "C", inch: "F" },
  difference: { metric: "K", inch: "F" },
  angle: { metric: "deg", inch: "deg" },
  years: { metric: "years", inch: "years" },
  fraction: { metric: "%", inch: "%" },
};
const unitOf = (kind) => unitWords[kind]?.[settings.units] ?? "";

const numberAlone = /^[-+]?\d+([.,]\d+)?( \d+\/\d+)?$|^\d+\/\d+$/;

// Sheets print shares both ways: 45 is a percentage, 0.45 a share of 1.
const isShare = (kind, text) => kind === "fraction" && Number(text.replace(",", ".")) <= 1;

function withUnit(kind, typed) {
  const text = typed.trim();
  return numberAlone.test(text) && unitOf(kind) && !isShare(kind, text) ? `${text} ${unitOf(kind)}` : text;
}

// Inches are typed whole, their fraction is picked.
const inchFractions = ["", "1/16", "1/8", "3/16", "1/4", "5/16", "3/8", "7/16", "1/2", "9/16", "5/8", "11/16", "3/4", "13/16", "7/8", "15/16"];
const picksFraction = (kind) => settings.units === "inch" && (kind === "length" || kind === "thickness");

// "37 1/4 in" -> {whole: "37", fraction: "1/4"}; what is written otherwise stays whole.
function inchParts(text) {
  const [, whole, fraction] = text.match(/^(\d+)?(?:(?:^| )(\d+\/\d+))? in$/) ?? [];
  const fits = (whole ?? fraction) !== undefined && inchFractions.includes(fraction ?? "");
  return fits ? { whole: whole ?? "", fraction: fraction ?? "" } : { whole: text, fraction: "" };
}

// What stands in the field for a text: without the unit that a number alone would mean.
function shownValue(kind, text) {
  const unit = ` ${unitOf(kind)}`;
  const number = text.slice(0, -unit.length);
  return unitOf(kind) && text.endsWith(unit) && withUnit(kind, number) === text ? number : text;
}

// Sizes that one meets most, to pick before typing: common practice, no source.
const usualSizes = {
  thickness: { metric: ["3 mm", "4 mm", "5 mm", "6 mm", "8 mm", "10 mm"], inch: ["1/8 in", "5/32 in", "3/16 in", "1/4 in", "5/16 in", "3/8 in"] },
  bite: { metric: ["6 mm", "10 mm", "13 mm", "16 mm"], inch: ["1/4 in", "3/8 in", "1/2 in", "5/8 in"] },
};
const usualOf = (question) => usualSizes[question.name]?.[settings.units] ?? [];
