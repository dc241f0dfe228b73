// Asking the server. An answer is always an object; `lost` says that none came.

const LOST = { ok: false, error: "lost", message: "Not connected. Nothing was lost; it is tried again.", fix: "" };
const PATIENCE_MS = 8000;

export async function get(path) {
  return answer(fetch(path, { cache: "no-store", signal: patience() }));
}

export async function post(path, body) {
  return answer(
    fetch(path, {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify(body),
      signal: patience(),
    }),
  );
}

/** Ends a request that takes too long, where the browser is new enough for it. */
const patience = () => AbortSignal.timeout?.(PATIENCE_MS);

async function answer(asked) {
  try {
    const response = await asked;
    const told = await response.json();
    return { ...told, wait_s: Number(response.headers.get("Retry-After") ?? 0) };
  } catch {
    return LOST;
  }
}

/** A new name for an entry, so that sending it twice writes it once. (randomUUID is missing on plain http.) */
export function newId() {
  return Array.from(crypto.getRandomValues(new Uint8Array(12)), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
