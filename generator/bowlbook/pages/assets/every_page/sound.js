// The timers' tone, made by the browser itself: no file, no other host. A browser allows it after a tap.

let context = null;

/** Allow sound from now on; to be called while a tap or key is handled. */
export function unlock() {
  try {
    context ??= new AudioContext();
    if (context.state === "suspended") context.resume().catch(() => null);
  } catch { context = null; } // a phone without sound still vibrates
}

export const ready = () => context?.state === "running";

/** Two short notes, the second lower. */
export function tone() {
  if (!ready()) return;
  for (const [place, pitch] of [880, 660].entries()) {
    const [note, loudness] = [context.createOscillator(), context.createGain()];
    const begins = context.currentTime + place * 0.3;
    note.frequency.value = pitch;
    loudness.gain.setValueAtTime(0.4, begins);
    loudness.gain.linearRampToValueAtTime(0, begins + 0.25); // faded out, so that it does not click
    note.connect(loudness).connect(context.destination);
    note.start(begins);
    note.stop(begins + 0.25);
  }
}
