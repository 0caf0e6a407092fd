// Whether the kernel is there. The server looks every half second and tells those connected that it
// has ended. On the app page it is asked for a sign, too: who has slept was told of nothing.

const TICK_MS = 1000;
const EVERY_MS = 5000;
const PATIENCE_MS = 3000;
const CONNECTING_MS = 15000;
const BUSY_MS = 30000;
const ENDED = new Set(["restarting", "autorestarting", "dead"]);
const WAKING = ["visibilitychange", "pageshow", "online", "focus"];

// Where the server tells of this page's kernel; empty where this is no app page.
export function pageKernel() {
  const config = document.getElementById("jupyter-config-data");
  if (!document.body.dataset.voila || !config) return null;
  const { baseUrl, kernelId } = JSON.parse(config.textContent);
  return { told: `${baseUrl}api/kernels/${kernelId}`, end: `${baseUrl}voila/api/shutdown/${kernelId}` };
}

// What proves to the server that it is this page that asks: the same word, sent in two ways.
function proof() {
  const known = document.cookie.match(/\b_xsrf=([^;]*)/)?.[1];
  if (known) return known;
  const made = crypto.randomUUID().replaceAll("-", "");
  document.cookie = `_xsrf=${made}; path=/; SameSite=Strict`;
  return made;
}

// A page that is closed gives its memory back.
export function endKernel({ end }) {
  fetch(end, { method: "POST", keepalive: true, headers: { "X-XSRFToken": proof() } }).catch(() => {});
}

// Hear what the connection of a widget to its kernel tells: that the kernel has `ended`, and whether
// it is `connected` itself. Return how to stop.
export function hearKernel(connection, { ended, connected }) {
  if (!connection) return () => {};
  const onStatus = (_, status) => ENDED.has(status) && ended();
  const onConnection = (_, status) => connected(status === "connected");
  connection.statusChanged.connect(onStatus);
  connection.connectionStatusChanged.connect(onConnection);
  return () => {
    connection.statusChanged.disconnect(onStatus);
    connection.connectionStatusChanged.disconnect(onConnection);
  };
}

export class KernelWatch {
  // `ask` asks the kernel for a sign, `tell` is told "", "busy", "lost" or "ended".
  constructor(kernel, ask, tell) {
    Object.assign(this, { kernel, ask, tell, ticked: Date.now() });
    this.wake = () => document.hidden || this.look();
    for (const event of WAKING) window.addEventListener(event, this.wake);
    document.addEventListener("visibilitychange", this.wake);
    this.timer = setInterval(() => this.look(), TICK_MS);
    this.heard();
  }

  leave() {
    clearInterval(this.timer);
    for (const event of WAKING) window.removeEventListener(event, this.wake);
    document.removeEventListener("visibilitychange", this.wake);
  }

  heard() {
    this.wasCut = false;
    this.askedAt = null;
    this.heardAt = Date.now();
    this.tell("");
  }

  // A connection that breaks is doubted at once; one that is there again asks.
  connected(isThere) {
    this.wasCut = true;
    this.askedAt = Date.now();
    if (isThere) this.askOnce();
    else this.doubt(this.askedAt);
  }

  look() {
    const now = Date.now();
    const hasSlept = now - this.ticked > EVERY_MS;
    this.ticked = now;
    if (this.askedAt === null ? now - this.heardAt >= EVERY_MS : hasSlept) {
      this.askedAt = now;
      this.askOnce();
    } else if (this.askedAt !== null && now - this.askedAt >= PATIENCE_MS) this.doubt(this.askedAt);
  }

  // A connection that is known to be broken refuses to send; the server tells the rest.
  askOnce() {
    try {
      this.ask();
    } catch { /* doubted in a moment */ }
  }

  async doubt(askedAt) {
    if (this.isDoubting) return;
    this.isDoubting = true;
    const told = await this.state(askedAt).catch(() => "ended");
    this.isDoubting = false;
    if (this.askedAt === askedAt) this.tell(told);
  }

  // An answer that does not come is a kernel's that is busy, slow, connecting anew, or lost. Where
  // the connection has held all the time its end would have been told; the server does not call
  // busy what is done step by step, such as writing every file.
  async state(askedAt) {
    const answer = await fetch(this.kernel.told, { cache: "no-store" });
    if (!answer.ok) return "lost";
    const { execution_state: doing, connections } = await answer.json();
    const waited = Date.now() - askedAt;
    if (doing === "busy" || !this.wasCut) return waited < BUSY_MS ? "busy" : "lost";
    return connections || waited > CONNECTING_MS ? "lost" : "busy";
  }
}
