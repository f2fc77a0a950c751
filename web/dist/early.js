// Asks what every screen begins with while the page's own script is still on its way. src/early_answers.ts hands each answer
// out once, and only where it was asked as the page asks.
(() => {
  const words = (text) => {
    try {
      return JSON.parse(text) ?? {};
    } catch {
      return {};
    }
  };
  let chosen = Object.fromEntries(new URLSearchParams(location.search));
  try {
    const kept = localStorage.getItem("redd.reader");
    if (kept) chosen = words(kept);
  } catch {
    // Storage is forbidden: the address and the browser's language say who reads.
  }
  const tag = navigator.language;
  const headers = {
    "accept-language": chosen.language ?? (/^es\b/i.test(tag) ? "es" : "en"),
    "redd-units": chosen.units ?? (/^[a-z]{2,3}(-[a-z]{4})?-US\b/i.test(tag) ? "us" : "metric"),
  };
  const ask = async (path) => {
    const response = await fetch(path, { headers, cache: "no-store", signal: AbortSignal.timeout(15000) });
    return { status: response.status, text: await response.text() };
  };
  const answers = new Map();
  const season = ask("/api/season");
  answers.set("/api/season", season);
  // Without a season, or before signing in, there is neither a day nor a kit to ask for: then the answer is null.
  const isReady = season.then(({ text }) => words(text).state === "ready");
  for (const path of ["/api/day", "/api/kits"])
    answers.set(
      path,
      isReady.then((ready) => (ready ? ask(path) : null)),
    );
  for (const answer of answers.values()) answer.catch(() => undefined);
  globalThis.reddEarly = { headers, answers, at: performance.now() };
})();
