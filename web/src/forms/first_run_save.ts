// Keeps the records of the set-up one after the other, so that a broken connection half-way costs nothing: each record
// has a slot with a key of its own, an unanswered one is settled before anything else, a kept one that was changed since
// is corrected, and one no longer wanted is taken back.
import type { Outcome } from "../api";
import type { NewRecord, Problem, RecordId, Saved } from "../contract";
import { newEntryKey } from "../keep";
import type { Planned, Screen } from "./first_run";

export interface Slot {
  /** What was sent last, whole; nobody knows whether it arrived while `id` is null. */
  sent: NewRecord | null;
  id: RecordId | null;
  /** What holds until a correction on its way is known to have arrived. */
  before?: { sent: NewRecord; id: RecordId };
}
export type Slots = Record<string, Slot>;

export interface Desk {
  add: (record: NewRecord) => Promise<Outcome<Saved>>;
  undo: (id: RecordId) => Promise<Outcome<Saved>>;
  /** After every change of the slots, before and after the server is asked. */
  keep: (slots: Slots) => void;
}

export type Kept = { ok: true } | { ok: false; problems: Problem[]; screen: Screen };

/** Codes that say nothing about whether the record was kept. */
const unanswered = ["no_connection", "not_json", "refused"];
const said = (record: Pick<NewRecord, "kind" | "body" | "at">) =>
  JSON.stringify([record.kind, record.body, record.at ?? null]);

/** Finds out whether what was sent without an answer was kept: the same key twice is one record. */
async function settled(slot: Slot, desk: Desk): Promise<Problem[]> {
  if (!slot.sent || slot.id !== null) return [];
  const outcome = await desk.add(slot.sent);
  if (outcome.ok) slot.id = outcome.value.id;
  else if (outcome.problems.some((problem) => unanswered.includes(problem.code))) return outcome.problems;
  else goBack(slot);
  return [];
}

/** The server refused what was sent last: what held before still holds. */
function goBack(slot: Slot): void {
  slot.sent = slot.before?.sent ?? null;
  slot.id = slot.before?.id ?? null;
  delete slot.before;
}

async function keepOne(
  planned: Planned,
  slot: Slot,
  author: string,
  desk: Desk,
  changed: () => void,
): Promise<Problem[]> {
  const record: NewRecord = {
    kind: planned.kind,
    author,
    entry_key: newEntryKey(),
    body: planned.body,
    ...(planned.at ? { at: planned.at } : {}),
  };
  if (slot.sent && slot.id !== null) {
    if (said(slot.sent) === said(record)) return [];
    record.supersedes = slot.id;
    slot.before = { sent: slot.sent, id: slot.id };
  }
  slot.sent = record;
  slot.id = null;
  changed();
  const outcome = await desk.add(record);
  if (outcome.ok) slot.id = outcome.value.id;
  else if (!outcome.problems.some((problem) => unanswered.includes(problem.code))) goBack(slot);
  changed();
  return outcome.ok ? [] : outcome.problems;
}

/** Keeps them in order and stops at the first problem. Called again, it adds only what is missing. */
export async function keepAll(list: readonly Planned[], slots: Slots, author: string, desk: Desk): Promise<Kept> {
  const changed = () => desk.keep(slots);
  for (const [name, slot] of Object.entries(slots)) {
    const screen = list.find((planned) => planned.slot === name)?.screen ?? "check";
    const problems = await settled(slot, desk);
    if (problems.length > 0) return { ok: false, problems, screen };
    changed();
  }
  for (const [name, slot] of Object.entries(slots)) {
    if (list.some((planned) => planned.slot === name)) continue;
    const outcome = slot.id === null ? null : await desk.undo(slot.id);
    // Taken back by an earlier try whose answer was lost.
    const gone = outcome && !outcome.ok && outcome.problems.every((problem) => problem.code === "already_replaced");
    if (outcome && !outcome.ok && !gone) return { ok: false, problems: outcome.problems, screen: "check" };
    delete slots[name];
    changed();
  }
  for (const planned of list) {
    slots[planned.slot] ??= { sent: null, id: null };
    // Read back: of a watched list, what is read is what others see changing.
    const slot = slots[planned.slot]!;
    const problems = await keepOne(planned, slot, author, desk, changed);
    if (problems.length > 0) return { ok: false, problems, screen: planned.screen };
  }
  return { ok: true };
}
