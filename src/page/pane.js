// One pane as a person entered it: a plain object that can be kept, copied and sent to the engine.
//   answers  question's id -> the answer's words, a value as typed, or a list of words; "": touched, and not known.
//            What is not among them was not touched, which the engine takes as not known too
//   others   job key -> text, of keys that no question is about
//   base     {name, toml}: a job file that holds where nothing was answered; null without

const newPane = () => ({ answers: {}, others: {}, base: null });

const isUntouched = ({ answers, others, base }) =>
  base === null && Object.keys(answers).length === 0 && Object.keys(others).length === 0;

// What the engine is asked about it; `want` and what goes with it beside.
function requestOf(pane, rest = {}) {
  const set = Object.entries(pane.others).filter(([, text]) => text !== "");
  const request = { answers: pane.answers, set, units: settings.units, language: settings.language, ...rest };
  return pane.base === null ? request : { ...request, source: pane.base.name, toml: pane.base.toml };
}
