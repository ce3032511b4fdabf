// Refreshes the board. Without this script the browser loads the page again, if it is told to.
const every = 2000, patience = 5000;

function reveal() {
  for (const id of ["refreshes", "stop"]) document.getElementById(id).hidden = false;
}

// What is shown is old: say so first, once.
function tell() {
  if (document.getElementById("lost")) return;
  const at = document.querySelector(".at strong").textContent, box = document.createElement("div"), text = document.createElement("p");
  box.id = "lost";
  box.className = "alarms";
  box.setAttribute("role", "alert");
  text.textContent = `The service does not answer this page. What stands below was so at ${at} and may have changed.`;
  box.append(text);
  document.querySelector("main").prepend(box);
}

async function refresh() {
  try {
    const reply = await fetch(location.href, { cache: "no-store", signal: AbortSignal.timeout(patience) });
    const main = new DOMParser().parseFromString(await reply.text(), "text/html").querySelector("main");
    if (!reply.ok || !main?.querySelector("#board")) throw new Error("no board");
    const focused = document.activeElement?.getAttribute("href");
    document.querySelector("main").replaceWith(main);
    reveal();
    if (focused) [...main.querySelectorAll("a")].find(a => a.getAttribute("href") === focused)?.focus({ preventScroll: true });
  } catch {
    tell();
  }
}

async function go() {
  if (!document.hidden) await refresh();
  setTimeout(go, every);
}

reveal();
setTimeout(go, every);
