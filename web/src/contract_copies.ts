// Shapes of a saved season and of taking one in (docs/openapi.json: Export, TakenIn).
import type { Instant } from "./contract";

export interface SeasonFile {
  redd_season: number;
  title: string;
  resources: { name: string; data: unknown[] }[];
}

export interface TakenIn {
  added: number;
  known: number;
  /** Labels among them that look like personal data: kept, and told. */
  warnings?: string[];
}

/** GET and POST /api/copies: the copies on the server's machine, newest first, each read through for this answer. */
export interface MadeCopies {
  season: string;
  copies: MadeCopy[];
}

export interface MadeCopy {
  number: number;
  made_at: Instant;
  /** Day and time at the school's clock. */
  made_text: string;
  why: string;
  why_text: string;
  /** null: not known. */
  records: number | null;
  state: "whole" | "older_layout" | "bytes_only" | "unreadable" | "damaged";
  state_text: string;
}
