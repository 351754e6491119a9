// The lead bench: who is where, as it happens; the keys of the front screen; invented benches that go on by themselves.
import { listenForKeys } from "./keys.js";
import { startLive } from "./live.js";
import { Parts } from "./parts.js";

const INVENTED_EVERY_MS = 2500;
let going = null;

startLive();
new Parts();
listenForKeys();
document.addEventListener("submit", (event) => {
  if (!event.target.matches("[data-invented]")) return;
  event.preventDefault();
  if (going) stop();
  else start(event.target);
});
document.addEventListener("ropewalk:part", name);

// The form is sent again and again: each time one invented bench takes its next reading.
function start(form) {
  const send = () => fetch(form.action, { method: "POST", body: new URLSearchParams(new FormData(form)) }).catch(stop);
  going = setInterval(send, INVENTED_EVERY_MS);
  send();
  name();
}

function stop() {
  clearInterval(going);
  going = null;
  name();
}

function name() {
  const button = document.getElementById("invented");
  if (button) button.textContent = going ? "Stop the invented benches" : "Let invented benches take readings";
}
