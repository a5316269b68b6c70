// The screen stays on while somebody mixes, follows steps or has a timer running, where the phone allows it.

const wanted = new Set();
let lock = null;
let asking = false;

async function keep() {
  if (lock || asking || !wanted.size || !navigator.wakeLock || document.visibilityState !== "visible") return;
  asking = true;
  try {
    lock = await navigator.wakeLock.request("screen");
    lock.addEventListener("release", () => { lock = null; }); // the phone takes it back where the page is left
  } catch { /* a low battery, or not allowed here */ }
  asking = false;
  if (!wanted.size) lock?.release();
}

/** Keep the screen on for this reason, or no longer. */
export function stayAwake(reason, yes = true) {
  if (yes) wanted.add(reason);
  else wanted.delete(reason);
  if (wanted.size) keep();
  else lock?.release();
}

document.addEventListener("visibilitychange", keep);
