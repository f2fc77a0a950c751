// Patterns and words of the sources against the catalogues in data/messages.
//   node tools/messages.mjs            what is missing or orphaned; fails if anything is
//   node tools/messages.mjs --sort     writes the catalogues anew, sorted, each entry once
//   node tools/messages.mjs --missing  English that waits for a translation, one JSON string a line
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const catalogue = join(root, "data/messages/es.po");
/** Sentences with fixed amounts, said in US units: their second half is English that needs a translation too. */
const usUnits = join(root, "data/messages/en_us.po");
/** The command line's help and manual have a catalogue of their own, which the browser's module need not carry. */
const helpCatalogue = join(root, "data/messages/command_line_es.po");
const helpFiles = /^src\/cli\/(command_line|import_flags|described_app|manual|manual_command)\.cpp$/;
/** Literals that look like words and are not shown: what each file's text is for programs only. */
const notShown = readFileSync(join(root, "data/messages/not_shown.txt"), "utf8")
  .split("\n")
  .filter((line) => line && !line.startsWith("#"));

function files(folder) {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? files(join(folder, entry.name)) : /\.(cpp|h)$/.test(entry.name) ? [join(folder, entry.name)] : [],
  );
}

const tokens = /\/\/[^\n]*|\/\*[^]*?\*\/|R"\(([^]*?)\)"|"((?:[^"\\\n]|\\.)*)"|'(?:[^'\\\n]|\\.)+'|#include[^\n]*|static_assert|[A-Za-z_]\w*|\S/g;

/** String literals of a C++ source, neighbours joined, as they are written, with the word before each. */
export function literals(source) {
  const found = [];
  let before = "";
  let open = null;
  for (const match of source.matchAll(tokens)) {
    const [token, raw, text] = match;
    if (token.startsWith("//") || token.startsWith("/*")) continue;
    if (text !== undefined || raw !== undefined) {
      const words = text ?? raw.replace(/["\\]/g, "\\$&").replace(/\n/g, "\\n");
      if (open) open.text += words;
      else found.push((open = { text: words, before, isRaw: raw !== undefined }));
    } else {
      open = null;
      before = `${before} ${token}`.slice(-60);
    }
  }
  return found;
}

/** A literal with a blank between two words is for people, unless the list says otherwise. */
const isProse = (text) => /[A-Za-z)}\]:,.%][ ]+[A-Za-z({"\\<]/.test(text) && /[A-Za-z]{2}/.test(text.replace(/\{\d+\}/g, ""));

export function readCatalogue(text) {
  const entries = new Map();
  const doubles = [];
  for (const [, english, words] of text.matchAll(/^msgid "((?:[^"\\\n]|\\.)*)"\nmsgstr "((?:[^"\\\n]|\\.)*)"$/gm)) {
    if (english === "") continue;
    if (entries.has(english)) doubles.push(english);
    entries.set(english, words);
  }
  return { entries, doubles };
}

function gathered() {
  const prose = new Map();
  const help = new Map();
  const all = new Set();
  for (const file of files(join(root, "src"))) {
    const name = relative(root, file);
    const skipped = notShown.filter((line) => line.startsWith("src/") && name.startsWith(line));
    for (const { text, before, isRaw } of literals(readFileSync(file, "utf8"))) {
      all.add(text).add(text.replaceAll("_", " "));
      if (skipped.length > 0 || /broken_promise \( , $|require \(|static_assert|\bsource = $/.test(`${before} `)) continue;
      const wanted = helpFiles.test(name) ? help : prose;
      if (isRaw && wanted === help) continue; // what "redd" alone shows is in English
      if (isProse(text) && !wanted.has(text)) wanted.set(text, name);
    }
  }
  for (const [metric, us] of readCatalogue(readFileSync(usUnits, "utf8")).entries) {
    if (!all.has(metric)) throw new Error(`orphaned in en_us.po: ${metric}`);
    all.add(us);
    prose.set(us, "data/messages/en_us.po");
  }
  for (const line of notShown) for (const map of [prose, help]) if (!line.startsWith("src/")) map.delete(line);
  return { prose, help, all };
}

const mode = process.argv[2];

if (mode === "--sort") {
  for (const path of [catalogue, helpCatalogue]) {
    const text = readFileSync(path, "utf8");
    const head = text.slice(0, text.indexOf("\n\n") + 1);
    const rows = [...readCatalogue(text).entries].sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
    writeFileSync(path, head + rows.map(([english, words]) => `\nmsgid "${english}"\nmsgstr "${words}"\n`).join(""));
  }
} else {
  const { prose, help, all } = gathered();
  for (const [path, wanted] of [
    [catalogue, prose],
    [helpCatalogue, help],
  ]) {
    const name = relative(join(root, "data/messages"), path);
    const { entries, doubles } = readCatalogue(readFileSync(path, "utf8"));
    const missing = [...wanted].filter(([english]) => !entries.has(english));
    if (mode === "--missing") {
      for (const [english, file] of missing) console.log(`${file}\t${english}`);
      continue;
    }
    const orphans = [...entries.keys()].filter((english) => !all.has(english));
    const faults = [
      ...missing.map(([english, file]) => `missing in ${name} (${file}): ${english}`),
      ...orphans.map((english) => `orphaned in ${name}: ${english}`),
      ...doubles.map((english) => `twice in ${name}: ${english}`),
      ...[...entries].filter(([, words]) => words === "").map(([english]) => `empty in ${name}: ${english}`),
    ];
    for (const fault of faults) console.log(fault);
    if (faults.length > 0) process.exitCode = 1;
  }
}
