// What the printed sheets ask of the server: the order of a sitting, and the season report.
import type { CountsView, Day, RecordId } from "./contract";

/** A sitting of water tests in the order of show, as far as a sheet of paper needs it. */
export interface SittingOrder {
  headline: string;
  turns: { test: string; starts_text: string; sentence: string; read_by_text?: string; waits_until_text?: string }[];
  later: { first: string; then: string; printed: number; at_or_above: boolean }[];
  remarks: string[];
  safety: string[];
}

export interface ReportEntry {
  day: Day;
  day_text: string;
  text: string;
  author: string;
  record_id: RecordId;
}

export interface SeasonReport {
  season: {
    name: string;
    place: string;
    invented: boolean;
    first_day: Day;
    first_day_text: string;
    species_name: string;
    volume_text: string;
    target_text: string;
    permit: string;
    release_window_text: string;
  };
  made_on: Day;
  made_on_text: string;
  sentence: string;
  counts: CountsView;
  losses: { day: Day; day_text: string; what: string; count: number; all_counted: boolean; text: string }[];
  temperature: {
    sentence: string;
    months: {
      month: string;
      month_text: string;
      text: string;
      days: number;
      measured: number;
      measured_text: string;
    }[];
  };
  water: {
    sentence: string;
    rows: {
      with_animals: boolean;
      key: string;
      name: string;
      sittings: number;
      sittings_text: string;
      span_text: string;
      lowest_text: string;
      highest_text: string;
    }[];
  };
  milestones: {
    sentence: string;
    rows: {
      key: string;
      name: string;
      foretold_text: string;
      seen_day: Day | null;
      seen_text: string;
      fit: "not_seen" | "inside" | "earlier" | "later" | "not_foretold";
      fit_text: string;
    }[];
  };
  releases: ReportEntry[];
  incidents: ReportEntry[];
  keepers: { label: string; text: string }[];
  work: string[];
  method: string[];
  doubt: string[];
}
