// Keeps the whole book on the phone. A copy arrives as a whole, every part proven by its hash, or not at all.

const PREFIX = `bowlbook ${self.registration.scope} `;
const CACHE = PREFIX + COPY.version;
const address = (name) => new URL(name, self.registration.scope).href;

/** Which pack a file is in: CRC-32 of its path (RFC 1952, without its table). */
function packOf(path) {
  let crc = -1;
  for (const byte of new TextEncoder().encode(path)) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return COPY.packs[(~crc >>> 0) % COPY.packs.length];
}

async function fetched(name) {
  const answer = await fetch(address(name), { cache: "no-store", credentials: "same-origin" });
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  const bytes = await answer.arrayBuffer();
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  const found = [...digest].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  if (!found.startsWith(/-([0-9a-f]+)\.pack$/.exec(name)[1])) throw new Error(`${name}: not what was announced`);
  return new Response(bytes);
}

async function install() {
  const cache = await caches.open(CACHE);
  const older = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  const waiting = [...COPY.packs];
  const work = async () => {
    for (let name = waiting.shift(); name; name = waiting.shift()) {
      let kept = null;
      for (const other of older) kept ??= await (await caches.open(other)).match(address(name));
      await cache.put(address(name), kept ?? await fetched(name));
    }
  };
  try {
    await Promise.all([work(), work(), work(), work()]);
    await cache.put(address("received"), new Response(String(Date.now())));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
  await self.skipWaiting();
}

async function activate() {
  for (const name of await caches.keys()) {
    if (name.startsWith(PREFIX) && name !== CACHE) await caches.delete(name);
  }
  await self.clients.claim();
}

const OPEN = 8; // packs kept unpacked
const open = new Map();

/** A file of the copy as [type, bytes]; undefined where the copy has none by that path. */
async function file(path) {
  const name = packOf(path);
  if (!open.has(name)) {
    if (open.size >= OPEN) open.delete(open.keys().next().value);
    open.set(name, unpacked(name));
  }
  return (await open.get(name)).get(path);
}

/** The files of a pack by path: its first line lists the path, type and size of each, then come their bytes. */
async function unpacked(name) {
  const packed = await (await caches.open(CACHE)).match(address(name));
  if (!packed) { open.delete(name); return new Map(); }
  const stream = packed.body.pipeThrough(new DecompressionStream("gzip"));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  let start = bytes.indexOf(10) + 1; // past the line feed
  const list = JSON.parse(new TextDecoder().decode(bytes.subarray(0, start)));
  return new Map(list.map(([path, type, size]) => [path, [type, bytes.subarray(start, start += size)]]));
}

/** A file as an answer. A page carries the version of its copy, so that it notices when another one takes over. */
function response([type, bytes], status = 200) {
  let body = bytes;
  if (type.startsWith("text/html")) {
    body = new TextDecoder().decode(bytes).replace("</head>", `<meta name="bowlbook-copy" content="${COPY.version}"></head>`);
  }
  return new Response(body, { status, headers: { "Content-Type": type } });
}

/** The copy of a picture that the phone keeps, whichever size a page asks for. */
async function smallest(path) {
  return /^pictures\/.*-\d+\.(webp|jpg)$/.test(path) ? file(path.replace(/-\d+\.(webp|jpg)$/, "-480.webp")) : undefined;
}

async function answer(request) {
  const url = new URL(request.url);
  const path = decodeURIComponent(url.pathname.slice(new URL(self.registration.scope).pathname.length));
  const found = await file(path === "" || path.endsWith("/") ? `${path}index.html` : path);
  if (found) return response(found);
  if (request.mode === "navigate" && !path.endsWith("/") && await file(`${path}/index.html`)) {
    return Response.redirect(`${url.origin}${url.pathname}/${url.search}`, 302);
  }
  try {
    return await fetch(request);
  } catch (error) {
    const small = await smallest(path);
    if (small) return response(small);
    const missing = request.mode === "navigate" && await file("404.html");
    if (missing) return response(missing, 404);
    throw error;
  }
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method === "GET" && request.url.startsWith(self.registration.scope)) event.respondWith(answer(request));
});
self.addEventListener("message", (event) => {
  if (event.data !== "which copy" || !event.source) return;
  event.waitUntil((async () => {
    const kept = await (await caches.open(CACHE)).match(address("received"));
    const received = kept ? Number(await kept.text()) : Date.now();
    event.source.postMessage({ kind: "copy", version: COPY.version, received });
  })());
});
