// What stays on the device. Where the browser keeps nothing (a preview, a private window) it lasts as long as the page
// is open, and to keep it means to download it.

const storePrefix = "sunstrain.";
const memory = new Map();

function storage() {
  try {
    window.localStorage.setItem(`${storePrefix}probe`, "1");
    window.localStorage.removeItem(`${storePrefix}probe`);
    return window.localStorage;
  } catch {
    return null;
  }
}

const onDevice = storage();
const keepsOnDevice = () => onDevice !== null;

// Whether it will be there when the page is opened again.
function keep(name, value) {
  memory.set(name, value);
  try {
    onDevice?.setItem(storePrefix + name, JSON.stringify(value));
    return keepsOnDevice();
  } catch {  // full
    return false;
  }
}

function kept(name, otherwise) {
  if (memory.has(name)) return memory.get(name);
  try {
    return JSON.parse(onDevice?.getItem(storePrefix + name)) ?? otherwise;
  } catch {
    return otherwise;
  }
}

function download(name, text, type = "text/plain") {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = element("a", "", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
