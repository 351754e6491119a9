// One JSON body to /api/v1; gives up after a while, for a network that swallows a question without a word.

const ANSWER_MS = 15000;

export async function post(address, body, token) {
  const asking = new AbortController();
  const late = setTimeout(() => asking.abort(), ANSWER_MS);
  try {
    return await fetch(address, {
      method: "POST", credentials: "same-origin", cache: "no-store", body: JSON.stringify(body), signal: asking.signal,
      headers: { "Content-Type": "application/json", Accept: "application/json", "X-CSRFToken": token },
    });
  } finally {
    clearTimeout(late);
  }
}
