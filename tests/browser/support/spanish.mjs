// What a page in Spanish has left in English: every text that can be seen or heard is looked through for small words that
// Spanish does not have. What people typed and wrote on their cards stays as it is, and so do names of publications.
const small =
  "the and of with not for is this that from was which until your you it be been will would than into their they there these when what where who how an at on by or if has have can only nothing yet water tank fish eggs egg day days week weeks reading readings test tests today tomorrow yesterday more less page save show hide open close likely unknown hatch hatched swim-up feeding food chiller room pump change dose";
const english = new RegExp(`(?<![\\p{L}\\p{N}_./-])(${small.split(" ").join("|")})(?![\\p{L}\\p{N}_/-])`, "iu");

/** Every string of several words inside. */
function stringsIn(value, found = new Set()) {
  if (typeof value === "string" && /\S\s\S/.test(value)) found.add(value.trim());
  else if (typeof value === "object" && value !== null)
    for (const inner of Object.values(value)) stringsIn(inner, found);
  return found;
}

/** What stands under a key that says where something was published, however deep. */
function sourcesIn(value, found = []) {
  if (typeof value !== "object" || value === null) return found;
  for (const [key, inner] of Object.entries(value)) {
    if (/source/.test(key)) found.push(inner);
    else sourcesIn(inner, found);
  }
  return found;
}

/** What is not to be translated: what the season's people wrote into entries and kits, and names of publications. */
export async function wordsOfTheSeason(address) {
  const get = async (path) => (await fetch(`${address}api/${path}`, { headers: { "accept-language": "es" } })).json();
  const entries = [];
  for (let before = ""; ;) {
    const { records } = await get(`history?limit=200${before}`);
    entries.push(...records.map((one) => [one.body, one.author]));
    if (records.length === 0 || records.at(-1).id <= 1) break;
    before = `&before_id=${records.at(-1).id}`;
  }
  const views = await Promise.all(["day", "feed", "counts", "loading", "plan", "water-plan"].map(get));
  const { kits } = await get("kits");
  const { name, place } = views[0].season;
  return [...stringsIn([entries, kits, name, place, sourcesIn(views)])].sort((a, b) => b.length - a.length);
}

/** Lines of the page in which English is left; `own` are words that are not to be translated. */
export async function englishLeft(page, own = []) {
  const texts = await page.evaluate(() => {
    const found = new Set();
    const shown = (element) =>
      element !== null &&
      !element.closest("[lang=en], script, style, code, cite, datalist") &&
      element.checkVisibility();
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const blocks = new Map();
    while (walk.nextNode()) {
      const inside = walk.currentNode.parentElement;
      const block = inside?.closest(
        "p, li, dd, dt, h1, h2, h3, th, td, label, button, a, option, legend, caption, text",
      );
      if (!shown(inside)) continue;
      const at = block ?? inside;
      blocks.set(at, `${blocks.get(at) ?? ""}${walk.currentNode.data}`);
    }
    for (const text of blocks.values()) found.add(text.replace(/\s+/g, " ").trim());
    for (const element of document.querySelectorAll("[aria-label], [title], [alt], [placeholder], [aria-valuetext]"))
      if (shown(element))
        for (const name of ["aria-label", "title", "alt", "placeholder", "aria-valuetext"])
          if (element.getAttribute(name)) found.add(element.getAttribute(name));
    found.add(document.title);
    return [...found];
  });
  return texts.filter((text) => {
    let rest = text;
    for (const words of own) if (rest.includes(words)) rest = rest.replaceAll(words, " ");
    return english.test(rest);
  });
}
