// Shapes of the shared classroom (docs/openapi.json: Classroom, ClassroomAccess, Audit …). On the network every POST of the
// page carries the header "Redd-Page: 1"; a 401 with the code "not_signed_in" means: show the sign-in.
import type { Instant, RecordId } from "./contract";

export type Role = "this_machine" | "keeper" | "bench" | "nobody";

/** GET /api/classroom, and the answer to signing in and out. */
export interface Classroom {
  role: Role;
  /** Whether the server listens on the local network at all; without it there is nothing to show. */
  network: boolean;
  /** The team a bench code is bound to: the page logs under this label and asks for no other. */
  label: string | null;
  ends_at: Instant | null;
  idle_minutes: number | null;
  /** Kinds of record this visitor may add; null: all. */
  may_log: string[] | null;
  /** For the keeper only: what to type on another device, and how to know that it is this server. */
  addresses: string[];
  fingerprint: string | null;
  certificate_ends_at: Instant | null;
}

/** POST /api/classroom/sign-in. Refusals: 401 wrong_passphrase, unknown_code; 429 try_later (its sentence says how long). */
export type SignIn = { passphrase: string } | { code: string };

/** POST /api/classroom/codes. Minutes from 5 to 600. */
export interface NewBenchCode {
  team?: string;
  minutes?: number;
}

/** Its answer. The code can't be asked for again. */
export interface BenchCode {
  code: string;
  id: number;
  label: string | null;
  ends_at: Instant;
}

export interface OpenSession {
  id: number;
  role: Role;
  label: string | null;
  from: string;
  began_at: Instant;
  last_seen_at: Instant;
  ends_at: Instant;
  own: boolean;
}

export interface OpenCode {
  id: number;
  label: string | null;
  made_at: Instant;
  ends_at: Instant;
  sessions: number;
}

/** GET /api/classroom/access; also the answer of POST (with {}) to codes/{id}/end, sessions/{id}/end and end-all. */
export interface ClassroomAccess {
  sessions: OpenSession[];
  codes: OpenCode[];
}

export type Deed =
  | "record"
  | "sign_in"
  | "sign_in_failed"
  | "locked_out"
  | "sign_out"
  | "code_made"
  | "code_ended"
  | "session_ended"
  | "all_ended"
  | "taken_in"
  | "passphrase_set"
  | "passphrase_removed"
  | "listening";

export interface AuditRow {
  at: Instant;
  role: Role;
  label: string | null;
  /** Address on the local network; null: this machine. */
  from: string | null;
  what: Deed;
  record_id: RecordId | null;
  sentence: string;
}

/** GET /api/audit?limit&before. */
export interface Audit {
  rows: AuditRow[];
  more: boolean;
  before: number | null;
  /** What the list can't tell. Show it above the rows. */
  gaps: string[];
}
