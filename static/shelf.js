// Words that no server has acknowledged, kept in this browser under their own wedding's name.
const wedding = document.querySelector("[data-wedding]").dataset.wedding;
const prefix = `foreday:${wedding}:`;
const memory = new Map(); // where the browser keeps nothing

const take = (act) => { try { return act(localStorage); } catch { return null; } };

export function put(sheet, words) {
  const text = JSON.stringify(words);
  memory.set(prefix + sheet, text);
  take((shelf) => shelf.setItem(prefix + sheet, text));
}

export function drop(sheet) {
  memory.delete(prefix + sheet);
  take((shelf) => shelf.removeItem(prefix + sheet));
}

const read = (sheet) => memory.get(prefix + sheet) ?? take((shelf) => shelf.getItem(prefix + sheet));

export function unsent() {
  const keys = take((shelf) => Object.keys(shelf)) ?? [];
  return keys.filter((key) => key.startsWith(prefix)).map((key) => {
    const sheet = key.slice(prefix.length);
    return { sheet, ...JSON.parse(read(sheet)) };
  });
}

// Sends one sheet; true if the server holds it as a draft, false if all of it is kept already.
export async function send(sheet) {
  const text = read(sheet);
  const { url, turn, body } = JSON.parse(text);
  const data = new URLSearchParams(body);
  data.set("csrfmiddlewaretoken", document.querySelector("[name=csrfmiddlewaretoken]").value);
  data.set("do", "draft");
  const keepalive = body.length < 50_000; // what browsers let go on after a page is left
  const answer = await fetch(url, { method: "POST", body: data, keepalive });
  if (!answer.ok) throw answer;
  const { draft } = await answer.json();
  if (read(sheet) !== text) return draft;
  if (draft) put(sheet, { url, turn, body: "", sent: Date.now() }); // until a page has shown it
  else drop(sheet);
  return draft;
}
