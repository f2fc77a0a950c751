// The season as a file, and what the browser keeps: how many entries are in no file yet, when the last was saved, what the
// browser promised. In the edition in one file `local` is set; everywhere a season can be saved and opened.
import { exportSeason, importSeason } from "../api";
import { wallClock } from "../days";
import { engineAt, useEngine } from "../engine/engine";
import { keep, kept } from "../keep";
import type { Embedded } from "../local/embedded";
import { localSeason, type LocalSeason } from "../local/local_season";
import { browserStore, memoryStore, type SavedCopy, type StoredRecord } from "../local/store";
import { t } from "../messages";
import { answerThrough } from "../transport";
import type { Problem } from "../contract";

interface Copies {
  /** The edition in one file. */
  local: boolean;
  /** An invented season is open in it. */
  demo: boolean;
  /** The browser keeps entries when the page is closed. */
  lasting: boolean;
  /** What the browser said when asked not to clear them; null: not asked, or it can't be. */
  promised: boolean | null;
  newest: number;
  copy: SavedCopy | null;
  /** The keeper has chosen to begin a season of their own. */
  begun: boolean;
}

export const copies: Copies = $state({
  local: false,
  demo: false,
  lasting: false,
  promised: null,
  newest: 0,
  copy: null,
  begun: false,
});

export const unsaved = () => (copies.local && !copies.demo ? Math.max(0, copies.newest - (copies.copy?.id ?? 0)) : 0);

/** Entries, and days since the last file, after which the page asks for a new one. Assumed: one weekly test of a class, and a week. */
export const nagging = { entries: 12, days: 8 };

const dayMs = 86_400_000;

/** Days since the last file; null without one. */
export const copyAge = () => (copies.copy ? Math.floor((Date.now() - Date.parse(copies.copy.at)) / dayMs) : null);

/** Why the page asks for a file now, if it does. */
export function nagNow(): "entries" | "days" | null {
  if (unsaved() >= nagging.entries) return "entries";
  return unsaved() > 0 && (copyAge() ?? 0) >= nagging.days ? "days" : null;
}

let season: LocalSeason | null = null;
let carried: Embedded | null = null;

async function counted(): Promise<void> {
  if (!season) return;
  copies.newest = await season.store.newest();
  copies.copy = await season.store.copy();
}

/** Makes the page answer itself, from the season of this browser. */
export async function startLocal(parts: Embedded): Promise<void> {
  carried = parts;
  useEngine(engineAt(parts.home));
  const store = await browserStore().catch(() => memoryStore());
  season = localSeason(
    () => engineAt(parts.home),
    parts.shelf,
    store,
    () => void counted(),
  );
  answerThrough(season);
  Object.assign(copies, { local: true, lasting: store.lasting });
  copies.promised = (await navigator.storage?.persisted?.().catch(() => false)) === true ? true : null;
  await counted();
  // Another window of this browser may have added to the season.
  document.addEventListener("visibilitychange", () => void counted());
  window.addEventListener("beforeunload", (event) => {
    if (unsaved() > 0) event.preventDefault();
  });
}

/** Asks the browser not to clear the season by itself. */
export async function askToKeep(): Promise<void> {
  if (!copies.lasting || copies.promised) return;
  copies.promised = (await navigator.storage?.persist?.().catch(() => false)) === true;
}

export async function openDemo(): Promise<void> {
  if (!season || !carried) return;
  const lines = (await carried.demo()).split("\n").filter((line) => line !== "");
  season.change(memoryStore(lines.map((line) => JSON.parse(line) as StoredRecord)));
  Object.assign(copies, { demo: true, lasting: false });
  await counted();
}

export async function leaveDemo(): Promise<void> {
  if (!season) return;
  const store = await browserStore().catch(() => memoryStore());
  season.change(store);
  Object.assign(copies, { demo: false, lasting: store.lasting, begun: false });
  await counted();
}

export async function removeSeason(): Promise<void> {
  await season?.store.clear();
  copies.begun = false;
  await counted();
}

/** The day of an instant, or of now, on this computer's calendar. */
export const dayHere = (at: string | Date) =>
  wallClock(at, Intl.DateTimeFormat().resolvedOptions().timeZone).slice(0, 10);

/** "redd-willow-school-2031-02-14.json" */
export function fileName(text: string): string {
  const title = (JSON.parse(text) as { title?: string }).title ?? "";
  const words = title
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 40);
  return ["redd", ...(words ? [words] : []), dayHere(new Date())].join("-") + ".json";
}

/** Hands text, or what the server drew, to the browser as a file to keep. */
export function handOver(content: string | Blob, name: string, type = "application/json"): void {
  const address = URL.createObjectURL(typeof content === "string" ? new Blob([content], { type }) : content);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Saves the whole season; gives its name, or what is in the way. */
export async function saveSeason(): Promise<{ name: string } | { problems: Problem[] }> {
  const outcome = await exportSeason();
  if (!outcome.ok) return { problems: outcome.problems };
  const name = fileName(outcome.value.text);
  handOver(outcome.value.text, name);
  const copy: SavedCopy = { id: outcome.value.newest, at: new Date().toISOString(), name };
  if (season) await season.store.setCopy(copy).catch(() => undefined);
  else keep("copy", copy);
  copies.copy = copy;
  return { name };
}

/** On a page with a server the last saved file is this browser's own memory. */
export function recallCopy(): void {
  if (!season) copies.copy = kept<SavedCopy>("copy");
}

const largestFile = 60_000_000;

/** Takes a saved season in; gives how many entries were new, or what is wrong with the file. */
export async function openSeason(file: File): Promise<{ added: number } | { problems: Problem[] }> {
  if (file.size > largestFile)
    return { problems: [{ code: "file_too_large", field: "", sentence: t.copies.tooLarge }] };
  const wasEmpty = copies.newest === 0;
  const outcome = await importSeason(await file.text());
  if (!outcome.ok) return { problems: outcome.problems };
  if (season && (wasEmpty || outcome.value.known + outcome.value.added >= copies.newest)) {
    await counted();
    // What stands in the file that was just opened is saved.
    const id = Math.max(copies.copy?.id ?? 0, outcome.value.known + outcome.value.added);
    const copy = { id, at: new Date(file.lastModified).toISOString(), name: file.name };
    await season.store.setCopy(copy).catch(() => undefined);
    copies.copy = copy;
  }
  return { added: outcome.value.added };
}
