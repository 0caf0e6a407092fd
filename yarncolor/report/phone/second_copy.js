// A second copy of what is kept, written through to the disk: a phone that dies in the middle, or
// a browser that is ended hard, may forget the last seconds of the first.

const BASE = "yarncolor wheel";
const STORE = "kept";

const answered = (request) =>
  new Promise((resolve, reject) => {
    request.addEventListener("success", () => resolve(request.result));
    request.addEventListener("error", () => reject(request.error));
  });

function opened() {
  const request = indexedDB.open(BASE, 1);
  request.addEventListener("upgradeneeded", () => request.result.createObjectStore(STORE));
  return answered(request);
}

export class SecondCopy {
  constructor(key) {
    this.key = key;
    this.base = null;
  }

  async store(mode) {
    this.base ??= opened();
    const base = await this.base;
    return base.transaction(STORE, mode, { durability: "strict" }).objectStore(STORE);
  }

  // The text that is kept; null where there is none, or this browser keeps no second copy.
  async read() {
    try {
      const store = await this.store("readonly");
      return (await answered(store.get(this.key))) ?? null;
    } catch {
      return null;
    }
  }

  async write(text) {
    try {
      const store = await this.store("readwrite");
      store.put(text, this.key);
    } catch {
      this.base = null; // the first copy says what is the matter
    }
  }
}
