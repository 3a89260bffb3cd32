// Beside the engine in a worker of its own, so that a long answer does not hold up the form.
// A message {id, request} is answered by {id, answer}; before that, of long work in pieces, by {id, progress: [done, of]}.
async function unpacked() {
  const bytes = Uint8Array.from(atob(packed), (letter) => letter.charCodeAt(0));
  const plain = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(plain).arrayBuffer();
}

const ready = unpacked().then((wasmBinary) => sunstrain_engine({ wasmBinary }));

function ask(engine, request) {
  const text = JSON.stringify(request);
  const bytes = engine.lengthBytesUTF8(text) + 1;
  const at = engine._malloc(bytes);
  engine.stringToUTF8(text, at, bytes);
  const answer = engine.UTF8ToString(engine._sunstrain_answer(at));
  engine._free(at);
  return answer;
}

onmessage = async ({ data: { id, request } }) => {
  let answer;
  try {
    const engine = await ready;
    engine.progress = (done, of) => postMessage({ id, progress: [done, of] });
    answer = JSON.parse(ask(engine, request));
  } catch (error) {
    answer = { fault: String(error) };
  }
  postMessage({ id, answer });
};
